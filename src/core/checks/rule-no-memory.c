/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/balance.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* What does not go in is in no survey, but somebody sees it in its slot. */
static gboolean
is_bare (const LidCheck *check)
{
  for (guint i = 0; i < check->board->n_slots; i++)
    if (check->unusable[i])
      return FALSE;
  return check->survey->n_fitted == 0;
}

/* Slots stopped until no module is left: the machine does not start (settled reading 2). */
static void
check_memory (LidCheck *check)
{
  if (check->board->n_slots == 0 || check->balance->n > 0)
    return;
  lid_check_add (check, LID_GRADE_STOPS, LID_STOPS_MACHINE, NULL,
                 is_bare (check)
                     ? g_strdup (_ ("No module is fitted: the machine does not start."))
                     : g_strdup (_ ("Of the modules fitted none is left that the machine can use: "
                                    "it does not start.")));
}

const LidRule lid_rule_no_memory = {
  .id = "no-memory",
  .title = N_ ("at least one usable module"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_USABLE,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .cures = LID_CURE_FIT,
  .why = N_ ("A machine starts only with at least one module that it can use."),
  .clears = N_ ("Fit a module, or clear the findings that stop those that are in."),
  .basis = "physics",
  .source = LID_COMMON_PRACTICE,
  .check = check_memory,
};
