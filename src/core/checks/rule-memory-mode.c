/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Modes other than plain are kept in the job and not computed yet. */
static void
check_mode (LidCheck *check)
{
  if (check->population->mode == LID_MODE_PLAIN)
    return;
  lid_check_add (
      check, LID_GRADE_NOTE, LID_STOPS_NOTHING, NULL,
      g_strdup_printf (_ ("The memory mode is %s; its cost is not computed yet: capacity "
                          "and bandwidth here are those of the plain mode."),
                       lid_mode_to_text (check->population->mode)));
}

const LidRule lid_rule_memory_mode = {
  .id = "memory-mode",
  .title = N_ ("demands of the memory mode"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_NOTE),
  .why = N_ ("Mirrored, spared and paired memory pays for its protection with capacity or "
             "bandwidth, and asks for modules in a certain arrangement. Where that is not met, "
             "machines start in the plain mode, unprotected."),
  .clears
  = N_ ("Set the mode to plain in the facts of the job, or arrange the modules as the mode asks."),
  .basis = "common practice",
  .source = LID_COMMON_PRACTICE,
  .check = check_mode,
};
