/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner/plan-ask.h"

#include <glib/gi18n-lib.h>

/**
 * lid_plan_take:
 * @edits: the job the plan was worked out for, or the one it was a copy of
 * @option: one of its options
 * @error: LID_ERROR_BAD_CALL for a plan of another board; a job open for reading only
 *
 * Fills the planned population as the option says, as one step that can be undone. What is bought
 * comes to the job with part number, label and bin.
 *
 * Returns: whether it was taken
 */
gboolean
lid_plan_take (LidEdits *edits, const LidPlanOption *option, GError **error)
{
  return lid_edits_adopt (edits, LID_PLANNED, option->population, _ ("take a plan"), error);
}
