/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* A derived board has no rate table: with more modules on a channel than it ran with, it may run
 * slower, and nobody told (product.md 3). */
static void
check_more (LidCheck *check)
{
  LidSlotSet channels = { { 0 } }, slots = { { 0 } };
  g_autofree char *names = NULL;

  if (!check->board->derived || check->as_found == NULL || check->evidence)
    return;
  for (guint c = 0; c < check->board->n_channels; c++)
    {
      const LidSurveyChannel *channel = &check->survey->channels[c];
      guint before = 0;

      for (guint i = 0; i < check->board->channels[c].n_slots; i++)
        before += check->as_found->slots[check->board->channels[c].slots[i]].module != NULL;
      if (channel->n_fitted <= before)
        continue;
      lid_slot_set_add (&channels, c);
      for (guint i = 0; i < channel->n_fitted; i++)
        lid_slot_set_add (&slots, channel->fitted[i]);
    }
  if (lid_slot_set_is_empty (&channels))
    return;
  names = lid_names_channels (check, &channels);
  lid_check_add (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, &slots,
                 g_strdup_printf (_ ("More modules than as found on %s; whether they still run at "
                                     "that rate stands in the board's documents."),
                                  names));
}

const LidRule lid_rule_more_than_found = {
  .id = "more-than-found",
  .title = N_ ("rate with more modules on a channel"),
  .scope = LID_SCOPE_CHANNEL,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_UNSURE),
  .no_moves = N_ ("Only the board’s documents or the running machine tell the rate."),
  .why = N_ ("The rate of a channel depends on how many modules sit on it. This board is known "
             "only by what the machine reported, and then it ran with fewer."),
  .clears = N_ ("Look the rate up in the documents of the board. After power-on the machine itself "
                "reports it."),
  .basis = "inventory",
  .source = LID_COMMON_PRACTICE,
  .check = check_more,
};
