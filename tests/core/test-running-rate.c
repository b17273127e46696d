/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The running rate on random boards and populations against a slow reading of its definition. The
 * published tables and the single readings are cases: tests/cases/figures/rates-*.json. */
#include "figures/rate-table.h"
#include "figures/running-rate.h"

#define CHANNELS 4u
#define SLOTS 2u

/* A machine that may be drawn at random: two sockets, two channels each of two slots. */
typedef struct
{
  LidBoard *board;
  LidPopulation *population;
} Machine;

static LidBoard *
make_board (void)
{
  LidBoard *board = lid_board_new ();

  board->n_sockets = 2;
  board->sockets = g_new0 (LidBoardSocket, 2);
  board->n_channels = CHANNELS;
  board->channels = g_new0 (LidBoardChannel, CHANNELS);
  board->n_slots = CHANNELS * SLOTS;
  board->slots = g_new0 (LidBoardSlot, board->n_slots);
  board->channels_told = board->sockets_told = TRUE;
  for (guint i = 0; i < 2; i++)
    board->sockets[i] = (LidBoardSocket){ .n_channels = 2, .first_channel = 2 * i };
  for (guint c = 0; c < CHANNELS; c++)
    {
      board->channels[c] = (LidBoardChannel){ .socket = (int)(c / 2), .n_slots = SLOTS };
      board->channels[c].slots = g_new (guint, SLOTS);
      for (guint k = 0; k < SLOTS; k++)
        {
          LidBoardSlot *slot = &board->slots[c * SLOTS + k];

          board->channels[c].slots[k] = c * SLOTS + k;
          *slot = (LidBoardSlot){ .socket = (int)(c / 2), .channel = (int)c, .position = k + 1 };
          slot->id = g_strdup_printf ("%u%u", c, k);
        }
    }
  return board;
}

static LidRate
random_rate (GRand *rand)
{
  static const LidRate steps[] = { 6400, 7200, 8000, 8800, 9600 };

  return steps[g_rand_int_range (rand, 0, G_N_ELEMENTS (steps))];
}

static void
draw_table (GRand *rand, LidBoard *board)
{
  board->kinds = 1u << LID_KIND_REGISTERED | 1u << LID_KIND_LOAD_REDUCED;
  board->n_rates = (guint)g_rand_int_range (rand, 0, 9);
  board->rates = g_new0 (LidRateRow, board->n_rates);
  for (guint i = 0; i < board->n_rates; i++)
    {
      LidRateRow *row = &board->rates[i];

      row->processor
          = g_rand_int_range (rand, 0, 3) == 0 ? g_rand_int_range (rand, 0, 2) : LID_NOWHERE;
      row->kinds = (guint32)g_rand_int_range (rand, 0, 4) << LID_KIND_REGISTERED;
      row->least_ranks = (guint)g_rand_int_range (rand, 0, 4);
      row->most_ranks = g_rand_boolean (rand) ? row->least_ranks + 2 : 0;
      row->least_filled = (guint)g_rand_int_range (rand, 0, 3);
      row->most_filled = g_rand_boolean (rand) ? 2 : 0;
      row->rate = random_rate (rand);
    }
  board->n_processors = 2;
  board->processors = g_new0 (LidProcessorModel, 2);
  for (guint i = 0; i < 2 && g_rand_boolean (rand); i++)
    board->processors[i].rate[LID_KIND_REGISTERED]
        = board->processors[i].rate[LID_KIND_LOAD_REDUCED] = random_rate (rand);
  if (g_rand_boolean (rand))
    board->rate_ceiling = random_rate (rand);
  board->rate_per_socket = g_rand_boolean (rand);
}

static LidModule *
draw_module (GRand *rand, gboolean all_told)
{
  LidModule *module = lid_module_new ();

  lid_module_set (module, LID_FACT_GENERATION, LID_GENERATION_DDR4, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_CAPACITY, 8192, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_RATED, (gint32)random_rate (rand), LID_BASIS_TOLD);
  if (all_told || g_rand_boolean (rand))
    lid_module_set (module, LID_FACT_KIND,
                    g_rand_boolean (rand) ? LID_KIND_REGISTERED : LID_KIND_LOAD_REDUCED,
                    LID_BASIS_TOLD);
  if (all_told || g_rand_boolean (rand))
    lid_module_set (module, LID_FACT_LOGICAL_RANKS, 1 << g_rand_int_range (rand, 0, 4),
                    LID_BASIS_TOLD);
  return module;
}

static Machine
draw (GRand *rand, gboolean all_told)
{
  Machine machine = { make_board (), NULL };

  draw_table (rand, machine.board);
  machine.population = lid_population_new (machine.board);
  for (guint i = 0; i < machine.board->n_slots; i++)
    if (g_rand_boolean (rand))
      {
        g_autoptr (LidModule) module = draw_module (rand, all_told);

        lid_population_put (machine.population, i, module);
      }
  for (guint i = 0; i < 2; i++)
    machine.population->processors[i]
        = (LidFittedProcessor){ g_rand_int_range (rand, 0, 5) > 0, g_rand_int_range (rand, 0, 2) };
  if (g_rand_int_range (rand, 0, 4) == 0)
    machine.population->setup_limit = random_rate (rand);
  return machine;
}

static void
clear (Machine *machine)
{
  lid_population_free (machine->population);
  lid_board_unref (machine->board);
}

/* The table of one channel with every fact told: 0 = no row. */
static LidRate
slow_table (const Machine *machine, guint channel)
{
  guint filled = 0, ranks = 0;
  guint32 kinds = 0;

  for (guint k = 0; k < SLOTS; k++)
    {
      const LidModule *module = machine->population->slots[channel * SLOTS + k].module;

      if (module == NULL)
        continue;
      filled++;
      kinds |= 1u << module->value[LID_FACT_KIND];
      ranks = MAX (ranks, (guint)module->value[LID_FACT_LOGICAL_RANKS]);
    }
  for (guint i = 0; i < machine->board->n_rates; i++)
    {
      const LidRateRow *row = &machine->board->rates[i];
      int model = machine->population->processors[channel / 2].model;

      if ((row->kinds == 0 || (row->kinds & kinds) == kinds) && ranks >= row->least_ranks
          && (row->most_ranks == 0 || ranks <= row->most_ranks) && filled >= row->least_filled
          && (row->most_filled == 0 || filled <= row->most_filled)
          && (row->processor == LID_NOWHERE || row->processor == model))
        return row->rate;
    }
  return LID_RATE_UNKNOWN;
}

static void
lower (LidRate *least, LidRate rate)
{
  if (rate != LID_RATE_UNKNOWN && (*least == LID_RATE_UNKNOWN || rate < *least))
    *least = rate;
}

/* The least of everything of the channels from @first on, with every fact told; 0: none works. */
static LidRate
slow_rate (const Machine *machine, guint first, guint n)
{
  LidRate least = LID_RATE_UNKNOWN;

  for (guint i = first * SLOTS; i < (first + n) * SLOTS; i++)
    {
      const LidModule *module = machine->population->slots[i].module;
      const LidFittedProcessor *processor = &machine->population->processors[i / SLOTS / 2];
      LidRate table;

      if (module == NULL || !processor->fitted)
        continue;
      table = slow_table (machine, i / SLOTS);
      if (machine->board->n_rates > 0 && table == LID_RATE_UNKNOWN)
        continue;
      lower (&least, table);
      lower (&least, lid_module_rated (module));
      lower (&least, machine->board->processors[processor->model].rate[lid_module_kind (module)]);
      lower (&least, machine->board->rate_ceiling);
      lower (&least, machine->population->setup_limit);
    }
  return least;
}

static void
test_all_told (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (90125);
  guint missing = 0;

  for (guint round = 0; round < 20000; round++)
    {
      Machine machine = draw (rand, TRUE);
      g_autoptr (LidSurvey) survey = lid_survey_new (machine.board, machine.population);
      LidRate wanted = slow_rate (&machine, 0, CHANNELS);
      LidFigures figures;

      lid_figures_init (&figures, machine.board);
      lid_running_rate_compute (survey, NULL, &figures);
      g_assert_cmpuint (figures.running, ==, wanted);
      for (guint s = 0; s < 2; s++)
        {
          gboolean there
              = machine.population->processors[s].fitted && survey->fitted_of_socket[s] > 0;

          g_assert_cmpuint (figures.sockets[s].running, ==,
                            !there                           ? LID_RATE_UNKNOWN
                            : machine.board->rate_per_socket ? slow_rate (&machine, 2 * s, 2)
                                                             : wanted);
        }
      for (guint i = 0; i < figures.n_limits; i++)
        {
          g_assert_cmpuint (figures.limits[i].rate, >=, figures.running);
          g_assert_cmpint (figures.limits[i].binding, ==,
                           figures.limits[i].rate == figures.running);
        }
      for (guint c = 0; c < CHANNELS; c++)
        missing += figures.rates[c].row == LID_ROW_MISSING;
      lid_figures_clear (&figures);
      clear (&machine);
    }
  g_assert_cmpuint (missing, >, 1000);
}

/* Facts that are not told, one way of many they may be. */
static void
complete (GRand *rand, Machine *machine)
{
  for (guint i = 0; i < machine->board->n_slots; i++)
    {
      g_autoptr (LidModule) copy = NULL;

      if (machine->population->slots[i].module == NULL)
        continue;
      copy = lid_module_copy (machine->population->slots[i].module);
      if (!lid_module_knows (copy, LID_FACT_KIND))
        lid_module_set (copy, LID_FACT_KIND,
                        g_rand_boolean (rand) ? LID_KIND_REGISTERED : LID_KIND_LOAD_REDUCED,
                        LID_BASIS_TOLD);
      if (!lid_module_knows (copy, LID_FACT_LOGICAL_RANKS))
        lid_module_set (copy, LID_FACT_LOGICAL_RANKS, 1 << g_rand_int_range (rand, 0, 4),
                        LID_BASIS_TOLD);
      lid_population_put (machine->population, i, copy);
    }
}

/* What is claimed of a channel with facts not told holds whatever they turn out to be: a value that
 * is given is the only one any row gives, values that are not lie between least and most, and a
 * channel said to be without a row never finds one. */
static void
test_not_told (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5150);
  guint unsure = 0, found = 0;

  for (guint round = 0; round < 4000; round++)
    {
      Machine machine = draw (rand, FALSE);
      g_autoptr (LidSurvey) survey = lid_survey_new (machine.board, machine.population);
      Machine other = { lid_board_ref (machine.board), lid_population_copy (machine.population) };
      LidChannelRate rates[CHANNELS];

      for (guint c = 0; c < CHANNELS; c++)
        lid_rate_table_look_up (survey, c, survey->channels[c].n_fitted, 0, &rates[c]);
      for (guint way = 0; way < 12; way++)
        {
          lid_population_free (other.population);
          other.population = lid_population_copy (machine.population);
          complete (rand, &other);
          for (guint c = 0; c < CHANNELS; c++)
            {
              LidRate table = slow_table (&other, c);

              if (rates[c].row == LID_ROW_SILENT)
                continue;
              g_assert_true (rates[c].row != LID_ROW_MISSING || table == LID_RATE_UNKNOWN);
              if (table == LID_RATE_UNKNOWN)
                continue;
              g_assert_cmpuint (table, >=, rates[c].table_least);
              g_assert_cmpuint (table, <=, rates[c].table_most);
              g_assert_true (rates[c].row != LID_ROW_FOUND || table == rates[c].table);
              unsure += rates[c].row == LID_ROW_UNSURE;
              found += rates[c].row == LID_ROW_FOUND && rates[c].unknown_facts != 0;
            }
        }
      clear (&other);
      clear (&machine);
    }
  g_assert_cmpuint (unsure, >, 1000);
  g_assert_cmpuint (found, >, 1000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/running-rate/all-told", test_all_told);
  g_test_add_func ("/running-rate/not-told", test_not_told);
  return g_test_run ();
}
