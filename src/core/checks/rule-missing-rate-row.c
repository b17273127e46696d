/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "checks/words.h"
#include "figures/rate-table.h"

#include <glib/gi18n-lib.h>

/* Whether there is a row can hang on a fact that is not told. */
static void
ask_for_facts (LidCheck *check, guint channel)
{
  const LidSurveyChannel *here = &check->survey->channels[channel];

  for (guint i = 0; i < here->n_fitted; i++)
    for (guint32 left = check->figures->rates[channel].unknown_facts & check->rule->facts;
         left != 0; left &= left - 1)
      {
        LidFact fact = (LidFact)__builtin_ctz (left);

        if (!lid_module_knows (lid_check_module (check, here->fitted[i]), fact))
          lid_check_miss (check, fact, here->fitted[i]);
      }
}

/* The channels without a row, and what is on them. */
typedef struct
{
  LidSlotSet slots, channels;
  guint most_filled, most_ranks;
} Found;

/* Voltages at which every channel would have a row, as far as told: a setting that mends one
 * channel and takes the row of another is no remedy. Those below what setup is set to cannot be
 * asked for by raising it. */
static guint32
voltages_that_do (const LidCheck *check)
{
  const LidBoard *board = check->board;
  guint32 does = 0;

  for (guint i = 0; i < board->n_rates; i++)
    {
      guint32 volt = lid_voltage_from_mv (board->rates[i].voltage_mv);
      gboolean all = board->rates[i].voltage_mv > check->population->setup_mv
                     && (board->voltages == 0 || (board->voltages & volt) != 0);

      for (guint k = 0; all && k < check->n_live; k++)
        {
          const LidModule *module = lid_check_module (check, check->live[k]);

          all = !lid_module_knows (module, LID_FACT_VOLTAGE)
                || ((guint32)module->value[LID_FACT_VOLTAGE] & volt) != 0;
        }
      if (all && !lid_rate_table_leaves_out (check->survey, volt, 0))
        does |= volt;
    }
  return does;
}

/* The list that does not hold it: the first row for modules of their kinds says where it is from;
 * the first of all where none is. */
static void
say_source (const LidCheck *check, const Found *found, LidFinding *finding)
{
  const LidBoard *board = check->board;
  guint32 kinds = 0;
  guint at = 0;

  LID_SLOT_SET_EACH (&found->slots, slot)
    kinds |= 1u << lid_module_kind (lid_check_module (check, slot));
  while (at < board->n_rates && board->rates[at].kinds != 0
         && (board->rates[at].kinds & kinds) == 0)
    at++;
  finding->source = board->rates[at < board->n_rates ? at : 0].source;
}

/* Setup set by hand to a voltage at which there is no row: the setting is the cause, and to change
 * it needs no module moved. FALSE: it is not the cause. */
static gboolean
speak_of_voltage (LidCheck *check, const Found *found, const char *where, const char *names)
{
  g_autofree char *set = NULL, *better = NULL;
  guint32 does;
  LidFinding *finding;

  if (check->population->setup_mv == 0)
    return FALSE;
  does = voltages_that_do (check);
  if (does == 0)
    return FALSE;
  set = lid_words_voltages (lid_voltage_from_mv (check->population->setup_mv));
  better = lid_words_voltages (does);
  finding = lid_check_add (
      check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &found->slots,
      g_strdup_printf (_ ("Setup is set to %s, and at that voltage the board's rate table has no "
                          "row for the modules of %s (%u on the channel). By the rules not "
                          "working: %s."),
                       set, where, found->most_filled, names));
  say_source (check, found, finding);
  lid_remedy_say (
      check, finding,
      g_strdup_printf (_ ("Set the memory voltage to %s in setup, or to automatic."), better));
  if (finding->remedy != NULL)
    finding->remedy->by_setting = TRUE;
  return TRUE;
}

static void
speak (LidCheck *check, const Found *found)
{
  g_autofree char *names = lid_names_slots (check, &found->slots);
  g_autofree char *where = lid_names_channels (check, &found->channels);
  LidFinding *finding;

  if (speak_of_voltage (check, found, where, names))
    return;
  finding = lid_check_add (
      check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &found->slots,
      found->most_ranks > 0
          ? g_strdup_printf (
              g_dngettext (GETTEXT_PACKAGE,
                           "The board's rate table has no row for the modules of %s (%u on the "
                           "channel, %u rank on one). By the rules not working: %s.",
                           "The board's rate table has no row for the modules of %s (%u on the "
                           "channel, %u ranks on one). By the rules not working: %s.",
                           found->most_ranks),
              where, found->most_filled, found->most_ranks, names)
          : g_strdup_printf (_ ("The board's rate table has no row for the modules of %s (%u "
                                "on the channel). By the rules not working: %s."),
                             where, found->most_filled, names));
  say_source (check, found, finding);
  lid_remedy_take_out (check, finding, &found->slots);
}

/* The table is the maker's list of what works; published firmware disables the modules of a
 * channel it has no row for and lets it pull no other down (shared/facts/population.md 2). */
static void
check_rows (LidCheck *check)
{
  Found found = { 0 };

  for (guint c = 0; c < check->board->n_channels; c++)
    {
      const LidSurveyChannel *channel = &check->survey->channels[c];

      if (check->figures->rates[c].may_miss)
        ask_for_facts (check, c);
      if (check->figures->rates[c].row != LID_ROW_MISSING)
        continue;
      lid_slot_set_add (&found.channels, c);
      for (guint i = 0; i < channel->n_fitted; i++)
        lid_slot_set_add (&found.slots, channel->fitted[i]);
      found.most_filled = MAX (found.most_filled, channel->n_fitted);
      found.most_ranks = MAX (found.most_ranks, channel->most_ranks);
    }
  if (!lid_slot_set_is_empty (&found.slots))
    speak (check, &found);
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
  .clears = N_ ("Change what sits on the channel until a row of the board's table fits: fewer "
                "modules, or modules of a kind and a number of ranks that it lists. A voltage set "
                "in setup can be the cause too."),
  .facts = LID_FACT_BIT (LID_FACT_GENERATION) | LID_FACT_BIT (LID_FACT_RANKS)
           | LID_FACT_BIT (LID_FACT_LOGICAL_RANKS) | LID_FACT_BIT (LID_FACT_KIND)
           | LID_FACT_BIT (LID_FACT_VOLTAGE),
  .basis = "listed",
  .source = "open firmware tables for registered DDR3 (K4)",
  .check = check_rows,
};
