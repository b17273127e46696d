/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "facts/module.h"

#define LID_PARTS_FORMAT 1
#define LID_PARTS_MAX 100000u

/* What was learnt of part numbers, in the user's own file, so that a fact is asked once per part
 * and not once per slot (product.md 3). Holds no serials and no owners. */
typedef struct _LidParts LidParts;

char *lid_parts_default_path (void);
LidParts *lid_parts_load (const char *path, GError **error);
void lid_parts_free (LidParts *parts);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidParts, lid_parts_free)
guint lid_parts_get_size (const LidParts *parts);
gboolean lid_parts_is_read_only (const LidParts *parts);
guint32 lid_parts_apply (const LidParts *parts, LidModule *module);
gboolean lid_parts_learn (LidParts *parts, const LidModule *module);
gboolean lid_parts_save (LidParts *parts, GError **error);

/* parts-note.c: learning undone */
typedef struct _LidPartsNote LidPartsNote;

LidPartsNote *lid_parts_note (const LidParts *parts, const char *part);
void lid_parts_note_free (LidPartsNote *note);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidPartsNote, lid_parts_note_free)
void lid_parts_put_back (LidParts *parts, const LidPartsNote *note);
