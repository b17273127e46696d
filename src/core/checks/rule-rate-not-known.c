/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/rules.h"

#include "base/units.h"
#include "checks/names.h"

#include <glib/gi18n-lib.h>

/* The rate is null for reasons a person can lift: a rating that is not told (asked for by fact);
 * rows of the table that differ by something unknown: both values are named (settled reading 5); a
 * ceiling of the processor or of the firmware, whose model or level is not told. */
static void
ask_for_facts (LidCheck *check, guint channel, guint32 facts)
{
  const LidSurveyChannel *here = &check->survey->channels[channel];

  for (guint i = 0; i < here->n_fitted; i++)
    for (guint32 left = facts; left != 0; left &= left - 1)
      {
        LidFact fact = (LidFact)__builtin_ctz (left);

        if (!lid_module_knows (lid_check_module (check, here->fitted[i]), fact))
          lid_check_miss (check, fact, here->fitted[i]);
      }
}

/* One voltage is chosen for all: whoever does not tell it leaves every channel's row open. */
static void
ask_for_voltages (LidCheck *check)
{
  for (guint i = 0; i < check->n_live; i++)
    if (!lid_module_knows (lid_check_module (check, check->live[i]), LID_FACT_VOLTAGE))
      lid_check_miss (check, LID_FACT_VOLTAGE, check->live[i]);
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
      if (rate->unknown_facts & LID_FACT_BIT (LID_FACT_VOLTAGE))
        ask_for_voltages (check);
      processor = processor || rate->processor_unknown;
      *least = *least == 0 ? rate->table_least : MIN (*least, rate->table_least);
      *most = MAX (*most, rate->table_most);
      for (guint i = 0; i < check->survey->channels[c].n_fitted; i++)
        lid_slot_set_add (slots, check->survey->channels[c].fitted[i]);
    }
  return processor;
}

static gboolean
is_open (const LidFigures *figures, LidCap what)
{
  gboolean open = FALSE;

  for (guint i = 0; i < figures->n_limits; i++)
    open |= figures->limits[i].what == what && figures->limits[i].rate == LID_RATE_UNKNOWN;
  return open;
}

/* Whether a fitted processor's model is not told; else its ceiling turns on the modules' kind. */
static gboolean
misses_model (const LidCheck *check)
{
  for (guint s = 0; s < check->board->n_sockets; s++)
    if (check->population->processors[s].fitted
        && check->population->processors[s].model == LID_NOWHERE)
      return TRUE;
  return FALSE;
}

static void
ask_for_model (LidCheck *check)
{
  LidRate least = 0, most = 0;
  g_autofree char *low = NULL, *high = NULL;

  for (guint m = 0; m < check->board->n_processors; m++)
    for (guint kind = 0; kind < LID_N_KINDS; kind++)
      {
        LidRate rate = check->board->processors[m].rate[kind];

        if (rate == LID_RATE_UNKNOWN)
          continue;
        least = least == 0 ? rate : MIN (least, rate);
        most = MAX (most, rate);
      }
  low = lid_units_rate (least);
  high = lid_units_rate (most);
  lid_check_add (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, NULL,
                 g_strdup_printf (_ ("The rate is not known: the processor may hold it down, to %s "
                                     "or %s by its model, which is not told. Where to read it: on "
                                     "the processor's lid, or in setup."),
                                  low, high));
}

/* Ceilings that are open, though no row of the table is. */
static void
check_ceilings (LidCheck *check, gboolean model_asked)
{
  if (!model_asked && is_open (check->figures, LID_CAP_PROCESSOR))
    {
      if (misses_model (check))
        ask_for_model (check);
      else
        for (guint i = 0; i < check->n_live; i++)
          if (!lid_module_knows (lid_check_module (check, check->live[i]), LID_FACT_KIND))
            lid_check_miss (check, LID_FACT_KIND, check->live[i]);
    }
  if (is_open (check->figures, LID_CAP_FIRMWARE))
    lid_check_add (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, NULL,
                   g_strdup (_ ("The rate is not known: the firmware may hold it down, and its "
                                "level is not told. Where to read it: on the first page of "
                                "setup.")));
}

/* Evidence beats rules: the machine runs faster than something that is told would let it. */
static void
doubt_limits (LidCheck *check)
{
  LidRate running = check->figures->running, least = running;
  g_autofree char *runs = NULL, *most = NULL;

  for (guint i = 0; i < check->figures->n_limits; i++)
    if (check->figures->limits[i].rate != LID_RATE_UNKNOWN)
      least = MIN (least, check->figures->limits[i].rate);
  if (!check->evidence || least >= running)
    return;
  runs = lid_units_rate (running);
  most = lid_units_rate (least);
  lid_check_add (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, NULL,
                 g_strdup_printf (_ ("The machine reports that it runs at %s, and by what is told "
                                     "here %s is the most: a fact or the board is wrong."),
                                  runs, most));
}

static void
check_rate (LidCheck *check)
{
  LidSlotSet slots = { { 0 } };
  LidRate least = 0, most = 0;
  gboolean processor;
  g_autofree char *names = NULL, *low = NULL, *high = NULL;

  if (check->figures->running != LID_RATE_UNKNOWN)
    {
      doubt_limits (check);
      return;
    }
  for (guint i = 0; i < check->n_live; i++)
    if (lid_module_rated (lid_check_module (check, check->live[i])) == LID_RATE_UNKNOWN)
      lid_check_miss (check, LID_FACT_RATED, check->live[i]);
  processor = find_unsure (check, &slots, &least, &most);
  check_ceilings (check, processor);
  if (lid_slot_set_is_empty (&slots))
    return;
  names = lid_names_slots (check, &slots);
  low = lid_units_rate (least);
  high = lid_units_rate (most);
  lid_check_add (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, &slots,
                 processor
                     ? g_strdup_printf (_ ("The rate of %s is %s or %s by the board's table: it "
                                           "turns on the model of the processor: setup names it; "
                                           "it also stands on its lid, under the heat sink."),
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
  .grades = LID_GRADE_BIT (LID_GRADE_UNSURE),
  .no_moves = N_ ("Moving modules tells nobody a fact: it is read and told."),
  .why = N_ ("The machine runs at the least of what modules, processor, board, firmware and setup "
             "allow. A limit that is not told is never ignored: where it could be the least, the "
             "rate is not known."),
  .clears = N_ ("Tell what the finding asks for: the model of the processor, the firmware level, "
                "or a fact of the modules."),
  .facts = LID_FACT_BIT (LID_FACT_GENERATION) | LID_FACT_BIT (LID_FACT_RATED)
           | LID_FACT_BIT (LID_FACT_RANKS) | LID_FACT_BIT (LID_FACT_KIND)
           | LID_FACT_BIT (LID_FACT_LOGICAL_RANKS) | LID_FACT_BIT (LID_FACT_VOLTAGE),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_rate,
};
