/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/step.h"

/* What the files of edits share. */
struct _LidEdits
{
  LidJob *job;      /* owned */
  GPtrArray *steps; /* LidStep, oldest first */
  guint done;       /* so many of them stand; the rest can be redone */
  guint saved;      /* done when last saved; G_MAXUINT: that state is out of reach */
  guint64 next_id;  /* number of the next new module: no id is given twice */
};

gboolean lid_edits_commit (LidEdits *edits, LidStep *step, GError **error);
gboolean lid_edits_commit_population (
    LidEdits *edits, LidOf of, LidPopulation *after, char *name, GError **error);
LidPopulation *lid_edits_draft (const LidEdits *edits, LidOf of);
LidModule *lid_edits_find (const LidEdits *edits, const char *id, GError **error);
gboolean lid_edits_check_slot (const LidEdits *edits, guint slot, GError **error);
gboolean lid_edits_is_fixed (const LidBoard *board, const LidPopulation *population, guint slot);
int lid_edits_slot_of (const LidPopulation *population, const LidModule *module);
GPtrArray *lid_edits_copy_modules (const LidEdits *edits);
gboolean lid_edits_room_for (const LidEdits *edits, guint n, GError **error);
LidModule *lid_edits_add_to (LidEdits *edits, GPtrArray *modules, LidModule *module);
