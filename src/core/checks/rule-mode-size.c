/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/mode-refusal.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* At most half can be mirrored: each mirrored byte takes two (product.md 6). */
static void
check_size (LidCheck *check)
{
  const LidBoardMode *rule = lid_board_find_mode (check->board, check->population->mode);
  gint64 half = check->figures->capacity_mib / 2;
  LidSlotSet slots;
  LidFinding *finding;

  if (!lid_mode_refusal_met (check, LID_DEMAND_SIZE, &slots))
    {
      g_autofree char *asked = lid_units_capacity (check->population->mirrored_mib);
      g_autofree char *capacity = lid_units_capacity (check->figures->capacity_mib);
      g_autofree char *most = lid_units_capacity (half);

      finding = lid_mode_refusal_add (
          check, NULL,
          g_strdup_printf (_ ("%s cannot be mirrored of %s: each mirrored byte takes two, so at "
                              "most %s."),
                           asked, capacity, most));
      lid_remedy_say (check, finding, g_strdup_printf (_ ("Mirror %s at most."), most));
    }
  if (!lid_mode_refusal_met (check, LID_DEMAND_STEP, &slots))
    {
      g_autofree char *step = lid_units_capacity (rule->step_mib);

      finding = lid_mode_refusal_add (
          check, NULL, g_strdup_printf (_ ("The firmware mirrors in steps of %s."), step));
      lid_remedy_say (check, finding, g_strdup_printf (_ ("Choose a multiple of %s."), step));
    }
}

const LidRule lid_rule_mode_size = {
  .id = "mode-size",
  .title = N_ ("how much can be mirrored"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .no_moves = N_ ("It is a setting, and settings are changed in setup."),
  .why = N_ ("Each mirrored byte is kept twice, so at most half of the capacity can be mirrored, "
             "in the steps the firmware offers."),
  .clears = N_ ("Mirror less, in the firmware's step, or fit more."),
  .basis = "physics",
  .source = LID_FROM_MEMORY,
  .check = check_size,
};
