/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rates the slow way: a fact that is not told is tried with every value it may have, and every slot
 * and processor says its limits one by one. Written from product.md 6, "Running rate", and settled
 * readings 1, 5 and 6; nothing is kept, nothing is merged on the way. */
#include "slow-rates.h"

#define MOST_RANKS 200u

/* In how many worlds something holds. */
typedef struct
{
  guint worlds, holds;
} Tally;

static void
count (Tally *tally, gboolean holds)
{
  tally->worlds++;
  tally->holds += holds;
}

static gboolean
is_driven (const LidPopulation *population, int socket)
{
  return socket == LID_NOWHERE || population->processors[socket].fitted;
}

static gboolean
tells (const LidModule *module, LidFact fact)
{
  return module->basis[fact] != LID_BASIS_NONE;
}

guint
slow_rates_fitted (const LidBoard *board, const LidPopulation *population, guint channel)
{
  guint n = 0;

  for (guint i = 0; i < board->channels[channel].n_slots; i++)
    n += population->slots[board->channels[channel].slots[i]].module != NULL;
  return n;
}

/* A set of a row against every value a fact of the channel's modules may have. */
static Tally
try_set (const LidBoard *board,
         const LidPopulation *population,
         guint channel,
         LidFact fact,
         guint32 row,
         guint32 more)
{
  guint32 taken = fact == LID_FACT_KIND ? board->kinds : board->generations;
  guint n_values = fact == LID_FACT_KIND ? LID_N_KINDS : LID_N_GENERATIONS;
  gboolean misfits = row != 0 && more != 0 && (row & more) != more, open = FALSE;
  Tally tally = { 0, 0 };

  for (guint i = 0; i < board->channels[channel].n_slots; i++)
    {
      const LidModule *module = population->slots[board->channels[channel].slots[i]].module;

      if (module == NULL)
        continue;
      if (!tells (module, fact))
        open = TRUE;
      else if (row != 0 && (row >> module->value[fact] & 1) == 0)
        misfits = TRUE;
    }
  if (!open || misfits)
    count (&tally, !misfits);
  for (guint value = 1; open && !misfits && value < n_values; value++)
    if (taken == 0 || (taken >> value & 1) == 1)
      count (&tally, row == 0 || (row >> value & 1) == 1);
  return tally;
}

static Tally
try_ranks (const LidBoard *board,
           const LidPopulation *population,
           guint channel,
           const LidRateRow *row,
           const SlowChannel *asked)
{
  gboolean open = asked->more != 0 && asked->more_ranks == 0;
  guint most = asked->more_ranks;
  Tally tally = { 0, 0 };

  for (guint i = 0; i < board->channels[channel].n_slots; i++)
    {
      const LidModule *module = population->slots[board->channels[channel].slots[i]].module;
      gboolean known = TRUE;

      if (module != NULL)
        most = MAX (most, lid_board_count_ranks (board, module, &known));
      open = open || !known;
    }
  for (guint other = open ? 1 : 0; other <= (open ? MOST_RANKS : 0); other++)
    count (&tally, MAX (most, other) >= row->least_ranks
                       && (row->most_ranks == 0 || MAX (most, other) <= row->most_ranks));
  return tally;
}

static Tally
try_voltages (const LidRateRow *row, guint32 voltages)
{
  Tally tally = { 0, 0 };

  for (guint bit = 0; bit < 7; bit++)
    if (voltages == 0 || (voltages >> bit & 1) == 1)
      count (&tally, row->voltage_mv == 0 || row->voltage_mv == lid_voltage_lowest_mv (1 << bit));
  return tally;
}

static Tally
try_models (const LidBoard *board, int model, const LidRateRow *row)
{
  Tally tally = { 0, 0 };

  for (guint m = 0; m < MAX (board->n_processors, 1); m++)
    if (model == LID_NOWHERE || model == (int)m)
      count (&tally, row->processor == LID_NOWHERE || row->processor == (int)m);
  return tally;
}

static gboolean
counts_hold (const LidBoard *board, guint channel, const LidRateRow *row, const SlowChannel *asked)
{
  guint slots = 0;

  for (guint i = 0; i < board->channels[channel].n_slots; i++)
    slots += board->slots[board->channels[channel].slots[i]].soldered == NULL;
  return asked->filled >= row->least_filled
         && (row->most_filled == 0 || asked->filled <= row->most_filled)
         && (row->slots == 0 || row->slots == slots);
}

static void
take_row (LidChannelRate *out, guint index, LidRate rate, gboolean sure)
{
  if (out->row == LID_ROW_MISSING || rate < out->table_least)
    out->row_index = (int)index;
  out->table_least = out->row == LID_ROW_MISSING ? rate : MIN (out->table_least, rate);
  out->table_most = MAX (out->table_most, rate);
  out->row = out->table_least == out->table_most ? LID_ROW_FOUND : LID_ROW_UNSURE;
  out->table = out->row == LID_ROW_FOUND ? rate : LID_RATE_UNKNOWN;
  out->may_miss = !sure;
}

/* What the ranks of the channel's modules hang on and is not told. */
static guint32
missing_of_ranks (const LidBoard *board, const LidPopulation *population, guint channel)
{
  guint32 counted
      = 1u << (board->rank_count == LID_COUNT_LABEL ? LID_FACT_RANKS : LID_FACT_LOGICAL_RANKS);
  guint32 missing = 0;

  for (guint i = 0; i < board->channels[channel].n_slots; i++)
    {
      const LidModule *module = population->slots[board->channels[channel].slots[i]].module;
      gboolean known = TRUE;
      guint ranks = module != NULL ? lid_board_count_ranks (board, module, &known) : 0;
      g_autoptr (LidModule) registered = NULL;

      if (known)
        continue;
      /* If it were of a kind that hides nothing, would its ranks be known? */
      registered = lid_module_copy (module);
      if (!tells (module, LID_FACT_KIND))
        lid_module_set (registered, LID_FACT_KIND, LID_KIND_REGISTERED, LID_BASIS_TOLD);
      ranks = lid_board_count_ranks (board, registered, &known);
      missing |= known ? 0 : counted;
      if (!tells (module, LID_FACT_KIND) && board->load_reduced_ranks > 0
          && ranks != board->load_reduced_ranks
          && (board->kinds == 0 || (board->kinds >> LID_KIND_LOAD_REDUCED & 1) == 1))
        missing |= 1u << LID_FACT_KIND;
    }
  return missing;
}

/**
 * slow_rates_channel:
 *
 * Returns: what the table says of the channel; ratings left out
 */
LidChannelRate
slow_rates_channel (const LidBoard *board,
                    const LidPopulation *population,
                    guint channel,
                    const SlowChannel *asked)
{
  LidChannelRate out = { .row_index = LID_NOWHERE, .slowest = LID_NOWHERE };
  int socket = board->channels[channel].socket;
  int model = socket == LID_NOWHERE ? LID_NOWHERE : population->processors[socket].model;
  const guint32 facts[]
      = { 1u << LID_FACT_KIND, 1u << LID_FACT_GENERATION,
          missing_of_ranks (board, population, channel), 1u << LID_FACT_VOLTAGE, 0 };
  gboolean sure = FALSE;

  if (board->n_rates == 0 || asked->filled == 0)
    return out;
  out.row = LID_ROW_MISSING;
  for (guint i = 0; i < board->n_rates && !sure; i++)
    {
      const LidRateRow *row = &board->rates[i];
      const Tally axes[]
          = { try_set (board, population, channel, LID_FACT_KIND, row->kinds, asked->more),
              try_set (board, population, channel, LID_FACT_GENERATION, row->generations, 0),
              try_ranks (board, population, channel, row, asked),
              try_voltages (row, asked->voltages), try_models (board, model, row) };
      gboolean may = counts_hold (board, channel, row, asked);

      sure = may;
      for (guint a = 0; a < G_N_ELEMENTS (axes); a++)
        {
          may = may && axes[a].holds > 0;
          sure = sure && axes[a].holds == axes[a].worlds;
        }
      for (guint a = 0; may && a < G_N_ELEMENTS (axes); a++)
        if (axes[a].holds < axes[a].worlds)
          {
            out.unknown_facts |= facts[a];
            out.processor_unknown = out.processor_unknown || a + 1 == G_N_ELEMENTS (axes);
          }
      if (may)
        take_row (&out, i, row->rate, sure);
    }
  return out;
}

static gboolean
lacks_a_row (const LidBoard *board, const LidPopulation *population, guint32 volt)
{
  for (guint c = 0; c < board->n_channels; c++)
    {
      SlowChannel asked = { .filled = slow_rates_fitted (board, population, c), .voltages = volt };

      if (is_driven (population, board->channels[c].socket)
          && slow_rates_channel (board, population, c, &asked).row == LID_ROW_MISSING)
        return TRUE;
    }
  return FALSE;
}

/* Whether setup allows a voltage and no module that tells rules it out. */
static gboolean
can_run (const LidBoard *board, const LidPopulation *population, guint32 volt)
{
  gboolean can = lid_voltage_lowest_mv (volt) >= population->setup_mv;

  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidModule *module = population->slots[i].module;

      if (module != NULL && is_driven (population, board->slots[i].socket)
          && tells (module, LID_FACT_VOLTAGE) && (module->value[LID_FACT_VOLTAGE] & (int)volt) == 0)
        can = FALSE;
    }
  return can;
}

static gboolean
all_tell (const LidBoard *board, const LidPopulation *population)
{
  for (guint i = 0; i < board->n_slots; i++)
    if (population->slots[i].module != NULL && is_driven (population, board->slots[i].socket)
        && !tells (population->slots[i].module, LID_FACT_VOLTAGE))
      return FALSE;
  return TRUE;
}

/**
 * slow_rates_voltages:
 *
 * Returns: as lid_rate_table_voltages(): settled reading 5
 */
guint32
slow_rates_voltages (const LidBoard *board, const LidPopulation *population)
{
  static const guint rising[] = { 1100, 1200, 1250, 1350, 1500 };
  guint32 rows = 0, can = 0, lowest = 0, works = 0, highest = 0;

  for (guint i = 0; i < board->n_rates; i++)
    for (guint v = 0; v < G_N_ELEMENTS (rising); v++)
      rows |= board->rates[i].voltage_mv == rising[v] ? lid_voltage_from_mv (rising[v]) : 0;
  if (rows == 0)
    return 0;
  rows = board->voltages != 0 ? board->voltages : rows;
  for (guint v = 0; v < G_N_ELEMENTS (rising); v++)
    {
      guint32 volt = lid_voltage_from_mv (rising[v]);

      if ((rows & volt) == 0)
        continue;
      highest = volt;
      if (!can_run (board, population, volt))
        continue;
      can |= volt;
      lowest = lowest == 0 ? volt : lowest;
      if (works == 0 && !lacks_a_row (board, population, volt))
        works = volt;
    }
  if (can == 0)
    return highest;
  if (!all_tell (board, population))
    return can;
  return population->setup_mv == 0 && works != 0 ? works : lowest;
}
