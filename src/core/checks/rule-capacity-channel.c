/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/limits.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

static void
check_capacity (LidCheck *check)
{
  LidLimitTally tally = { .what = LID_LIMIT_CHANNEL, .subject = N_ ("A channel with %s") };

  if (!lid_limits_speak_of (check, tally.what))
    return;
  for (guint c = 0; c < check->board->n_channels; c++)
    {
      const LidSurveyChannel *channel = &check->survey->channels[c];
      guint slots[LID_BOARD_MAX_SLOTS];
      guint n = 0;

      for (guint i = 0; i < channel->n_fitted; i++)
        if (lid_check_counts (check, channel->fitted[i]))
          slots[n++] = channel->fitted[i];
      lid_limits_tally (check, &tally, slots, n);
    }
  lid_limits_report (check, &tally);
}

const LidRule lid_rule_capacity_channel = {
  .id = "capacity-channel",
  .title = N_ ("capacity of one channel"),
  .scope = LID_SCOPE_CHANNEL,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS) | LID_GRADE_BIT (LID_GRADE_UNSURE)
            | LID_GRADE_BIT (LID_GRADE_NOTE),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_SETTLE | LID_CURE_SPREAD,
  .why = N_ (
      "The board's documents list how much one channel takes. What somebody saw working beyond "
      "that counts with who, when and the firmware level, and is kept apart from what is listed."),
  .clears = N_ ("Take modules off the channel, fit smaller ones, or bring the firmware to the "
                "level with which more was seen to work."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY) | LID_FACT_BIT (LID_FACT_KIND),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_capacity,
};
