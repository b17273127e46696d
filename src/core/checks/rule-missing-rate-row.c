/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Whether there is a row can hang on a fact that is not told. */
static void
ask_for_facts (LidCheck *check, guint channel)
{
  const LidSurveyChannel *here = &check->survey->channels[channel];

  for (guint i = 0; i < here->n_fitted; i++)
    for (guint fact = 0; fact < LID_N_FACTS; fact++)
      if ((check->figures->rates[channel].unknown_facts & check->rule->facts & LID_FACT_BIT (fact))
          && !lid_module_knows (lid_check_module (check, here->fitted[i]), fact))
        lid_check_miss (check, fact, here->fitted[i]);
}

/* The table is the maker's list of what works; published firmware disables the modules of a
 * channel it has no row for and lets it pull no other down (shared/facts/population.md 2). */
static void
check_rows (LidCheck *check)
{
  LidSlotSet slots = { { 0 } }, channels = { { 0 } };
  g_autofree char *names = NULL, *where = NULL;
  guint most_filled = 0, most_ranks = 0;
  LidFinding *finding;

  for (guint c = 0; c < check->board->n_channels && check->board->n_rates > 0; c++)
    {
      const LidSurveyChannel *channel = &check->survey->channels[c];

      if (check->figures->rates[c].may_miss)
        ask_for_facts (check, c);
      if (check->figures->rates[c].row != LID_ROW_MISSING)
        continue;
      lid_slot_set_add (&channels, c);
      for (guint i = 0; i < channel->n_fitted; i++)
        lid_slot_set_add (&slots, channel->fitted[i]);
      most_filled = MAX (most_filled, channel->n_fitted);
      most_ranks = MAX (most_ranks, channel->most_ranks);
    }
  if (lid_slot_set_is_empty (&slots))
    return;
  names = lid_names_slots (check, &slots);
  where = lid_names_channels (check, &channels);
  finding = lid_check_add (
      check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &slots,
      most_ranks > 0
          ? g_strdup_printf (_ ("The board's rate table has no row for the modules of %s (%u "
                                "on the channel, %u ranks on one). By the rules not working: %s."),
                             where, most_filled, most_ranks, names)
          : g_strdup_printf (_ ("The board's rate table has no row for the modules of %s (%u "
                                "on the channel). By the rules not working: %s."),
                             where, most_filled, names));
  if (check->board->source != NULL)
    finding->source = check->board->source;
  lid_remedy_take_out (check, finding, &slots);
}

const LidRule lid_rule_missing_rate_row = {
  .id = "missing-rate-row",
  .title = N_ ("row of the rate table"),
  .scope = LID_SCOPE_MACHINE, /* the voltage axis looks at every module */
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_SPREAD | LID_CURE_EXCHANGE,
  .why = N_ ("The rate table lists the combinations that work: so many modules, of such ranks, on "
             "one channel. What is absent from it is not slow, it does not work; published "
             "firmware switches the modules of such a channel off."),
  .clears = N_ ("Change what sits on the channel until a row fits: fewer modules, or modules with "
                "fewer ranks."),
  .facts = LID_FACT_BIT (LID_FACT_RANKS) | LID_FACT_BIT (LID_FACT_LOGICAL_RANKS)
           | LID_FACT_BIT (LID_FACT_KIND),
  .basis = "listed",
  .source = "open firmware tables for registered DDR3 (K4)",
  .check = check_rows,
};
