/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/rules.h"

#include "base/units.h"
#include "checks/names.h"

#include <glib/gi18n-lib.h>

/* The rate is null for two reasons a person can lift: a rating that is not told (asked for by fact)
 * and rows of the table that differ by something unknown: both values are named (settled
 * reading 5). */
static void
ask_for_facts (LidCheck *check, guint channel, guint32 facts)
{
  const LidSurveyChannel *here = &check->survey->channels[channel];

  for (guint i = 0; i < here->n_fitted; i++)
    for (guint fact = 0; fact < LID_N_FACTS; fact++)
      if ((facts & (1u << fact))
          && !lid_module_knows (lid_check_module (check, here->fitted[i]), fact))
        lid_check_miss (check, fact, here->fitted[i]);
}

static gboolean
find_unsure (LidCheck *check, LidSlotSet *slots, LidRate *least, LidRate *most)
{
  gboolean processor = FALSE;

  for (guint c = 0; c < check->board->n_channels; c++)
    {
      const LidChannelRate *rate = &check->figures->rates[c];

      if (rate->row != LID_ROW_UNSURE)
        continue;
      ask_for_facts (check, c, rate->unknown_facts);
      processor = processor || rate->processor_unknown;
      *least = *least == 0 ? rate->table_least : MIN (*least, rate->table_least);
      *most = MAX (*most, rate->table_most);
      for (guint i = 0; i < check->survey->channels[c].n_fitted; i++)
        lid_slot_set_add (slots, check->survey->channels[c].fitted[i]);
    }
  return processor;
}

static void
check_rate (LidCheck *check)
{
  LidSlotSet slots = { { 0 } };
  LidRate least = 0, most = 0;
  gboolean processor;
  g_autofree char *names = NULL, *low = NULL, *high = NULL;

  if (check->figures->running != LID_RATE_UNKNOWN)
    return;
  for (guint i = 0; i < check->n_live; i++)
    if (lid_module_rated (lid_check_module (check, check->live[i])) == LID_RATE_UNKNOWN
        && !lid_check_module (check, check->live[i])->persistent)
      lid_check_miss (check, LID_FACT_RATED, check->live[i]);
  processor = find_unsure (check, &slots, &least, &most);
  if (lid_slot_set_is_empty (&slots))
    return;
  names = lid_names_slots (check, &slots);
  low = lid_units_rate (least);
  high = lid_units_rate (most);
  lid_check_add (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, &slots,
                 processor
                     ? g_strdup_printf (_ ("The rate of %s is %s or %s by the board's table: it "
                                           "turns on the model of the processor, which setup "
                                           "shows."),
                                        names, low, high)
                     : g_strdup_printf (_ ("The rate of %s is %s or %s by the board's table: it "
                                           "turns on facts of the modules that are not told."),
                                        names, low, high));
}

const LidRule lid_rule_rate_not_known = {
  .id = "rate-not-known",
  .title = N_ ("running rate"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .facts = LID_FACT_BIT (LID_FACT_RATED) | LID_FACT_BIT (LID_FACT_RANKS),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_rate,
};
