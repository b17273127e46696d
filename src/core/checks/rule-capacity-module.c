/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/limits.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

static void
check_capacity (LidCheck *check)
{
  LidLimitTally tally = { .what = LID_LIMIT_MODULE, .subject = N_ ("A module of %s") };

  if (!lid_limits_speak_of (check, tally.what))
    return;
  for (guint i = 0; i < check->n_dram; i++)
    {
      guint slot = check->dram[i];

      lid_limits_tally (check, &tally, &slot, 1);
    }
  lid_limits_report (check, &tally);
}

const LidRule lid_rule_capacity_module = {
  .id = "capacity-module",
  .title = N_ ("capacity of one module"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS) | LID_GRADE_BIT (LID_GRADE_UNSURE)
            | LID_GRADE_BIT (LID_GRADE_NOTE),
  .stops = LID_STOPS_SLOTS,
  .no_moves = N_ ("Newer firmware or smaller modules clear it; which of them, a person decides."),
  .why
  = N_ ("The board's documents list the largest module known when they were written. Larger ones "
        "that came later often work after an update of the firmware. What somebody saw working "
        "counts with who, when and the firmware level, and is kept apart from what is listed."),
  .clears = N_ ("Fit modules within the listed size, or bring the firmware to the level with which "
                "larger ones were seen to work."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY) | LID_FACT_BIT (LID_FACT_KIND),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_capacity,
};
