/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Speaks of every population somebody opens the lid for: not of the one as found. */
static void
check_baffle (LidCheck *check)
{
  if (!check->board->has_baffle || check->evidence)
    return;
  lid_check_add (check, LID_GRADE_NOTE, LID_STOPS_NOTHING, NULL,
                 g_strdup (_ ("The air baffle comes off first and goes back before power-on; it "
                              "often carries a printed map of the slots.")));
}

const LidRule lid_rule_baffle = {
  .id = "baffle",
  .title = N_ ("air baffle"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_NOTE),
  .no_moves = N_ ("The baffle is not a module: the hands see to it."),
  .why = N_ ("The baffle leads the air over the modules; hot chips refresh more often and make "
             "more errors. It has to come off for the work, and is forgotten easily."),
  .clears = N_ ("Nothing to clear: a reminder for whoever opens the lid."),
  .basis = "common practice",
  .source = LID_COMMON_PRACTICE,
  .check = check_baffle,
};
