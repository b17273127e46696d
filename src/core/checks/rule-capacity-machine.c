/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/limits.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* A size that is not told is asked for whatever the limits: without it there is no capacity. */
static void
check_capacity (LidCheck *check)
{
  LidLimitTally tally = { .what = LID_LIMIT_MACHINE, .subject = N_ ("A machine with %s") };
  guint slots[LID_BOARD_MAX_SLOTS];
  guint n = 0;

  for (guint i = 0; i < check->n_live; i++)
    if (lid_check_counts (check, check->live[i])
        && !lid_module_knows (lid_check_module (check, check->live[i]), LID_FACT_CAPACITY))
      lid_check_miss (check, LID_FACT_CAPACITY, check->live[i]);
  if (!lid_limits_speak_of (check, tally.what))
    return;
  for (guint i = 0; i < check->n_live; i++)
    if (lid_check_counts (check, check->live[i]))
      slots[n++] = check->live[i];
  lid_limits_tally (check, &tally, slots, n);
  lid_limits_report (check, &tally);
}

const LidRule lid_rule_capacity_machine = {
  .id = "capacity-machine",
  .title = N_ ("capacity in all"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS) | LID_GRADE_BIT (LID_GRADE_UNSURE)
            | LID_GRADE_BIT (LID_GRADE_NOTE),
  .stops = LID_STOPS_SLOTS,
  .no_moves = N_ ("Newer firmware or less memory clears it; which of them, a person decides."),
  .why = N_ ("The board's documents list how much memory the machine takes in all, often less than "
             "later modules make possible. What somebody saw working beyond that counts with who, "
             "when and the firmware level, and is kept apart from what is listed."),
  .clears
  = N_ ("Fit less in all, or bring the firmware to the level with which more was seen to work."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY) | LID_FACT_BIT (LID_FACT_KIND),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_capacity,
};
