/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rate-table.c: what the board's table says of one channel.
 *
 * A table is the maker's: rows with ranges on the axes kind, ranks, filled count, slots on the
 * channel, voltage and processor, in the order given. The first row that holds counts, so that a
 * special row may stand before a general one. No row that holds means "does not work" (source:
 * shared/facts/population.md 2, published firmware K4), which is not a slow rate.
 *
 * Facts of modules may be unknown. Then a row may hold, hold for sure, or not hold. Every row that
 * may hold, up to the first that holds for sure, is in play; where all of them give one value the
 * value is known, else the channel is unsure (product.md 6, settled reading 5). A kind that is not
 * told is one of those the board takes: any other stops the machine, and then there is no rate to
 * be wrong.
 *
 * Ranks: a row speaks of the module with the most ranks on the channel, as the board counts. Where
 * one module does not tell, the most is at least what the others have. */
#include "figures/rate-table.h"

typedef enum
{
  NO,
  MAYBE,
  YES
} Holds;

/* Where one channel stands on every axis of the table. */
typedef struct
{
  guint32 kinds, generations; /* bits; bit 0: one is not told */
  guint ranks;
  gboolean ranks_known;
  guint32 rank_facts; /* 1 << LidFact: what leaves the ranks in doubt */
  guint filled, slots;
  guint32 voltages; /* those it may run at; 0: not told */
  int processor;    /* LID_NOWHERE: not told */
} Place;

/* An axis that is a set: @row names what it speaks of, @seen what is fitted, @taken what the board
 * takes at all (0: not told). */
static Holds
holds_set (guint32 row, guint32 seen, guint32 taken)
{
  if (row == 0)
    return YES;
  if ((seen & ~1u & ~row) != 0)
    return NO;
  if ((seen & 1u) == 0)
    return YES;
  if (taken == 0)
    return MAYBE;
  if ((taken & ~row) == 0)
    return YES;
  return (taken & row) != 0 ? MAYBE : NO;
}

static Holds
holds_ranks (const LidRateRow *row, const Place *place)
{
  guint most = row->most_ranks == 0 ? G_MAXUINT : row->most_ranks;

  if (place->ranks_known)
    return place->ranks >= row->least_ranks && place->ranks <= most ? YES : NO;
  if (most < MAX (place->ranks, 1))
    return NO;
  return row->least_ranks <= MAX (place->ranks, 1) && most == G_MAXUINT ? YES : MAYBE;
}

static Holds
holds_voltage (const LidRateRow *row, const Place *place)
{
  guint32 volt;

  if (row->voltage_mv == 0)
    return YES;
  volt = lid_voltage_from_mv (row->voltage_mv);
  if (place->voltages == 0)
    return MAYBE;
  if ((place->voltages & volt) == 0)
    return NO;
  return place->voltages == volt ? YES : MAYBE;
}

static Holds
holds_processor (const LidRateRow *row, const Place *place)
{
  if (row->processor == LID_NOWHERE || row->processor == place->processor)
    return YES;
  return place->processor == LID_NOWHERE ? MAYBE : NO;
}

static Holds
holds (const LidBoard *board, const LidRateRow *row, const Place *place, LidChannelRate *out)
{
  Holds kind, generation, ranks, voltage, processor;

  if (place->filled < row->least_filled
      || (row->most_filled > 0 && place->filled > row->most_filled)
      || (row->slots > 0 && row->slots != place->slots))
    return NO;
  kind = holds_set (row->kinds, place->kinds, board->kinds);
  generation = holds_set (row->generations, place->generations, board->generations);
  ranks = holds_ranks (row, place);
  voltage = holds_voltage (row, place);
  processor = holds_processor (row, place);
  if (kind == NO || generation == NO || ranks == NO || voltage == NO || processor == NO)
    return NO;
  out->unknown_facts |= (kind == MAYBE ? 1u << LID_FACT_KIND : 0)
                        | (generation == MAYBE ? 1u << LID_FACT_GENERATION : 0)
                        | (ranks == MAYBE ? place->rank_facts : 0)
                        | (voltage == MAYBE ? 1u << LID_FACT_VOLTAGE : 0);
  out->processor_unknown = out->processor_unknown || processor == MAYBE;
  return MIN (MIN (MIN (kind, generation), MIN (ranks, voltage)), processor);
}

static void
look_up (const LidBoard *board, const Place *place, LidChannelRate *out)
{
  out->row = board->n_rates == 0 || place->filled == 0 ? LID_ROW_SILENT : LID_ROW_MISSING;
  if (out->row == LID_ROW_SILENT)
    return;
  for (guint i = 0; i < board->n_rates; i++)
    {
      const LidRateRow *row = &board->rates[i];
      Holds held = holds (board, row, place, out);

      if (held == NO)
        continue;
      if (out->row == LID_ROW_MISSING || row->rate < out->table_least)
        {
          out->table_least = row->rate;
          out->row_index = (int)i;
        }
      out->table_most = MAX (out->table_most, row->rate);
      out->row = LID_ROW_FOUND;
      out->may_miss = held != YES;
      if (held == YES)
        break;
    }
  if (out->row == LID_ROW_FOUND && out->table_least != out->table_most)
    out->row = LID_ROW_UNSURE;
  if (out->row == LID_ROW_FOUND)
    out->table = out->table_least;
}

static void
start (const LidSurvey *survey, guint channel, Place *place, LidChannelRate *out)
{
  const LidSurveyChannel *fitted = &survey->channels[channel];
  int socket = survey->board->channels[channel].socket;

  *out = (LidChannelRate){ .row_index = LID_NOWHERE, .slowest = LID_NOWHERE };
  *place = (Place){ .kinds = fitted->kinds,
                    .ranks = fitted->most_ranks,
                    .ranks_known = fitted->ranks_known,
                    .filled = fitted->n_fitted,
                    .slots = fitted->n_slots,
                    .processor = LID_NOWHERE };
  for (guint i = 0; i < fitted->n_fitted; i++)
    {
      const LidModule *module = lid_survey_module (survey, fitted->fitted[i]);

      place->generations |= 1u << lid_module_generation (module);
      place->rank_facts |= lid_board_ranks_missing (survey->board, module);
    }
  if (socket != LID_NOWHERE)
    place->processor = survey->population->processors[socket].model;
}

/**
 * lid_rate_table_look_up:
 * @survey: a population of a board
 * @channel: one of its channels
 * @filled: how many modules to ask for: what is fitted, or fewer, to learn whether the population
 * or the board slows it
 * @voltages: what lid_rate_table_voltages() gave
 * @out: (out): everything but the ratings
 *
 * Looks the channel up with the kinds and the ranks that are fitted. Source of the rule:
 * shared/facts/population.md 2.
 */
void
lid_rate_table_look_up (
    const LidSurvey *survey, guint channel, guint filled, guint32 voltages, LidChannelRate *out)
{
  Place place;

  start (survey, channel, &place, out);
  place.filled = filled;
  place.voltages = voltages;
  look_up (survey->board, &place, out);
}

/**
 * lid_rate_table_look_up_more:
 * @survey: a population of a board
 * @channel: one of its channels
 * @more: modules added to it
 * @more_ranks: ranks of each, as the board counts; 0: not told
 * @kinds: 1 << LidKind of them
 * @out: (out): as above
 *
 * Looks the channel up as it would be with more modules, at any voltage the board has: for the room
 * to grow.
 */
void
lid_rate_table_look_up_more (const LidSurvey *survey,
                             guint channel,
                             guint more,
                             guint more_ranks,
                             guint32 kinds,
                             LidChannelRate *out)
{
  Place place;

  start (survey, channel, &place, out);
  place.filled += more;
  place.kinds |= kinds;
  place.ranks = MAX (place.ranks, more_ranks);
  place.ranks_known = place.ranks_known && more_ranks > 0;
  look_up (survey->board, &place, out);
}

/* The table's voltages, as far as the board supplies them; 0: the table has no such axis. */
static guint32
supplied (const LidBoard *board)
{
  guint32 rows = 0;

  for (guint i = 0; i < board->n_rates; i++)
    rows |= lid_voltage_from_mv (board->rates[i].voltage_mv);
  return board->voltages != 0 && rows != 0 ? board->voltages : rows;
}

/* The lowest, or the highest, voltage of a set. */
static guint32
pick (guint32 voltages, gboolean highest)
{
  guint32 best = 0;

  for (guint32 left = voltages; left != 0; left &= left - 1)
    {
      guint32 volt = left & -left;
      guint mv = lid_voltage_lowest_mv (volt), best_mv = lid_voltage_lowest_mv (best);

      if (best == 0 || (highest ? mv > best_mv : mv < best_mv))
        best = volt;
    }
  return best;
}

/* Whether a channel has no row at any of some voltages. */
static gboolean
has_no_row (const LidSurvey *survey, guint channel, guint32 voltages)
{
  LidChannelRate rate;

  lid_rate_table_look_up (survey, channel, survey->channels[channel].n_fitted, voltages, &rate);
  return rate.row == LID_ROW_MISSING;
}

/**
 * lid_rate_table_leaves_out:
 * @survey: a population of a board
 * @volt: one voltage, of LidVoltages
 * @among: those it is chosen from; 0: every channel is to have its row
 *
 * Returns: whether a channel of a fitted processor has no row at that voltage, though at another
 */
gboolean
lid_rate_table_leaves_out (const LidSurvey *survey, guint32 volt, guint32 among)
{
  for (guint i = 0; i < survey->board->n_channels; i++)
    {
      int socket = survey->board->channels[i].socket;

      if ((socket == LID_NOWHERE || survey->population->processors[socket].fitted)
          && has_no_row (survey, i, volt) && (among == 0 || !has_no_row (survey, i, among)))
        return TRUE;
    }
  return FALSE;
}

/* Those setup allows and every fitted module can run at, as far as told. */
static guint32
common_voltages (const LidSurvey *survey, gboolean *told)
{
  guint32 common = supplied (survey->board);

  *told = TRUE;
  for (guint i = 0; i < survey->n_fitted; i++)
    {
      const LidModule *module = lid_survey_module (survey, survey->fitted[i]);

      if (!lid_survey_socket_fitted (survey, survey->fitted[i]))
        continue;
      if (lid_module_knows (module, LID_FACT_VOLTAGE))
        common &= (guint32)module->value[LID_FACT_VOLTAGE];
      else
        *told = FALSE;
    }
  for (guint32 left = common; left != 0; left &= left - 1)
    if (lid_voltage_lowest_mv (left & -left) < survey->population->setup_mv)
      common &= ~(left & -left);
  return common;
}

/* The lowest of @common at which every channel has a row that has one at any of them: a channel
 * without is out, and pulls the others nowhere (population.md 2, K4). 0: there is none. */
static guint32
lowest_with_rows (const LidSurvey *survey, guint32 common)
{
  for (guint32 left = common; left != 0; left &= ~pick (left, FALSE))
    if (!lid_rate_table_leaves_out (survey, pick (left, FALSE), common))
      return pick (left, FALSE);
  return 0;
}

/**
 * lid_rate_table_passed_over:
 * @survey: a population of a board
 * @instead: (out): the voltage taken instead
 * @told: (out): every fitted module tells what it can run at
 *
 * Returns: the lowest voltage all fitted modules could run at, as far as told, where setup on
 *   automatic passes it over because the table has no row for some channel there; else 0
 */
guint32
lid_rate_table_passed_over (const LidSurvey *survey, guint32 *instead, gboolean *told)
{
  guint32 common = common_voltages (survey, told), lowest = pick (common, FALSE);

  *instead = survey->population->setup_mv == 0 ? lowest_with_rows (survey, common) : 0;
  return *instead != lowest && *instead != 0 ? lowest : 0;
}

/**
 * lid_rate_table_voltages:
 * @survey: a population of a board
 *
 * The voltage all modules run at, for boards whose table knows that axis (DDR3). The lower one only
 * if setup, or its automatic setting, allows it and every fitted module can (product.md 6, settled
 * reading 5). On automatic, a voltage that would leave a channel without a row is passed over for
 * the next higher (common practice, no source); set by hand it stands, and the row is missing.
 *
 * Returns: a set of one; of several where modules do not tell what they can; 0: no such axis
 */
guint32
lid_rate_table_voltages (const LidSurvey *survey)
{
  gboolean told;
  guint32 common = common_voltages (survey, &told), volt = 0;

  if (common == 0)
    return pick (supplied (survey->board), TRUE);
  if (!told)
    return common;
  if (survey->population->setup_mv == 0)
    volt = lowest_with_rows (survey, common);
  return volt != 0 ? volt : pick (common, FALSE);
}
