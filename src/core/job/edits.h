/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/finding.h"
#include "facts/parts.h"
#include "job/tray.h"

/* A job being worked on: every change of it goes through here and can be taken back, without limit.
 *
 * A call that changes nothing succeeds and leaves no step. A call that fails changes nothing and
 * says why in one sentence. What lid_edits_job(), lid_edits_population() and lid_edits_tray()
 * return is good until the next edit, undo or redo. A planned or as-left population that does not
 * exist yet begins with the first edit of it: planned as a copy of as found, as left as a copy of
 * what is planned. The planned population is the job's last stage. */
typedef struct _LidEdits LidEdits;

/* The texts of a job that a person may write. */
typedef enum
{
  LID_EDITS_TITLE,
  LID_EDITS_OWNER,
  LID_EDITS_ASSET,
  LID_EDITS_NUMBER,
  LID_EDITS_SHOP,
  LID_EDITS_TECHNICIAN,
  LID_EDITS_NOTES,
  LID_EDITS_N_TEXTS
} LidEditsText;

/* edits.c: the stack */
LidEdits *lid_edits_new (LidJob *job);
void lid_edits_free (LidEdits *edits);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidEdits, lid_edits_free)
const LidJob *lid_edits_job (const LidEdits *edits);
const LidPopulation *lid_edits_population (const LidEdits *edits, LidOf of);
gboolean lid_edits_can_undo (const LidEdits *edits);
gboolean lid_edits_can_redo (const LidEdits *edits);
const char *lid_edits_undo_name (const LidEdits *edits);
const char *lid_edits_redo_name (const LidEdits *edits);
gboolean lid_edits_undo (LidEdits *edits);
gboolean lid_edits_redo (LidEdits *edits);
gboolean lid_edits_changed (const LidEdits *edits);
void lid_edits_mark_saved (LidEdits *edits);
void lid_edits_mark_unsaved (LidEdits *edits);
void lid_edits_set_reserved (LidEdits *edits, const char *in, const char *as);
gboolean lid_edits_become (LidEdits *edits, LidJob *job, const char *name, GError **error);
GPtrArray *lid_edits_tray (const LidEdits *edits, LidOf of);

/* edits-hands.c: one module at a time, and whole populations */
gboolean lid_edits_fill (LidEdits *edits, LidOf of, guint slot, const char *module, GError **error);
gboolean lid_edits_take (LidEdits *edits, LidOf of, guint slot, GError **error);
gboolean lid_edits_move (LidEdits *edits, LidOf of, guint from, guint to, GError **error);
gboolean
lid_edits_apply_remedy (LidEdits *edits, LidOf of, const LidRemedy *remedy, GError **error);
gboolean lid_edits_plan_from_found (LidEdits *edits, GError **error);
gboolean lid_edits_left_from_planned (LidEdits *edits, GError **error);
gboolean lid_edits_empty_all (LidEdits *edits, LidOf of, GError **error);

/* edits-adopt.c: a whole population from a plan */
gboolean lid_edits_adopt (
    LidEdits *edits, LidOf of, const LidPopulation *population, const char *name, GError **error);

/* edits-fill.c: many slots in one step */
int lid_edits_next_slot (const LidEdits *edits, LidOf of);
gboolean lid_edits_fill_first_slots (LidEdits *edits, LidOf of, const char *module, GError **error);
gboolean lid_edits_fill_channel (
    LidEdits *edits, LidOf of, guint channel, const char *module, GError **error);
gboolean lid_edits_fill_alike (LidEdits *edits, LidOf of, const char *module, GError **error);

/* edits-modules.c: modules that come to the job and go */
gboolean lid_edits_add_from_text (
    LidEdits *edits, const char *text, const LidParts *parts, char **module, GError **error);
gboolean lid_edits_drop (LidEdits *edits, const char *module, guint most, GError **error);

/* edits-facts.c: what is known of modules */
gboolean lid_edits_tell_fact (
    LidEdits *edits, const char *module, LidFact fact, gint32 value, GError **error);
gboolean
lid_edits_tell_label (LidEdits *edits, const char *module, const char *text, GError **error);

/* edits-settings.c: the machine around the modules, and the job's texts */
gboolean lid_edits_set_firmware (LidEdits *edits, LidOf of, const char *level, GError **error);
gboolean lid_edits_set_processor (
    LidEdits *edits, LidOf of, guint socket, gboolean fitted, int model, GError **error);
gboolean lid_edits_set_mode (LidEdits *edits,
                             LidOf of,
                             LidMode mode,
                             guint spare_ranks,
                             gint64 mirrored_mib,
                             GError **error);
gboolean lid_edits_set_numa_split (LidEdits *edits, LidOf of, guint nodes, GError **error);
gboolean lid_edits_set_setup (LidEdits *edits, LidOf of, LidRate limit, guint mv, GError **error);
gboolean lid_edits_set_text (LidEdits *edits, LidEditsText which, const char *text, GError **error);
const char *lid_edits_get_text (const LidEdits *edits, LidEditsText which);
