/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rate table, the running rate and its limits against a slow reading of their definition, on
 * boards and populations drawn at random with everything in them that may be not told: facts of
 * modules, models of processors, the firmware's level, the channel or the processor of a slot.
 * Source: product.md 6, "Running rate", settled readings 1, 5 and 6. */
#include "figures/rate-table.h"
#include "figures/running-rate.h"
#include "slow-rates.h"

static const guint voltages[] = { 1250, 1350, 1500 };

typedef struct
{
  LidBoard *board;
  LidPopulation *population, *other;
  const LidPopulation *as_found; /* nullable */
} Machine;

static guint
pick (GRand *rand, guint n)
{
  return (guint)g_rand_int_range (rand, 0, (gint32)n);
}

/* One time in @n. */
static gboolean
rarely (GRand *rand, guint n)
{
  return pick (rand, n) == 0;
}

static LidRate
any_rate (GRand *rand)
{
  return 3200 + 400 * pick (rand, 6);
}

static LidRate
rate_or_none (GRand *rand, guint n)
{
  return rarely (rand, n) ? LID_RATE_UNKNOWN : any_rate (rand);
}

static LidModule *
draw_module (GRand *rand, guint forgetful)
{
  static const LidKind kinds[]
      = { LID_KIND_REGISTERED,   LID_KIND_REGISTERED, LID_KIND_LOAD_REDUCED,
          LID_KIND_LOAD_REDUCED, LID_KIND_UNBUFFERED, LID_KIND_MULTIPLEXED_RANK };
  LidModule *module = lid_module_new ();
  const gint32 told[][2] = {
    { LID_FACT_GENERATION, LID_GENERATION_DDR3 + (gint32)pick (rand, 2) },
    { LID_FACT_KIND, kinds[pick (rand, G_N_ELEMENTS (kinds))] },
    { LID_FACT_CAPACITY, 8192 },
    { LID_FACT_RANKS, 1 << pick (rand, 3) },
    { LID_FACT_LOGICAL_RANKS, 1 << pick (rand, 4) },
    { LID_FACT_RATED, (gint32)any_rate (rand) },
    { LID_FACT_VOLTAGE, 1 + (gint32)pick (rand, 7) },
  };

  for (guint i = 0; i < G_N_ELEMENTS (told); i++)
    if (!rarely (rand, forgetful))
      lid_module_set (module, (LidFact)told[i][0], told[i][1], LID_BASIS_TOLD);
  return module;
}

static void
draw_slot (GRand *rand, LidBoardSlot *slot, guint index, int socket, int channel)
{
  *slot = (LidBoardSlot){ .socket = socket, .channel = channel };
  slot->id = g_strdup_printf ("%u", index);
  if (rarely (rand, 12))
    slot->soldered = draw_module (rand, 8);
}

/* Up to three sockets of two channels, each of up to three slots; some hang on no known socket or
 * channel, as on a board that was made from an inventory. */
static LidBoard *
draw_board (GRand *rand)
{
  LidBoard *board = lid_board_new ();

  board->derived = rarely (rand, 4);
  board->n_sockets = rarely (rand, 200) ? LID_BOARD_MAX_SOCKETS : 1 + pick (rand, 3);
  board->sockets = g_new0 (LidBoardSocket, board->n_sockets);
  board->n_channels = 2 * board->n_sockets;
  board->channels = g_new0 (LidBoardChannel, board->n_channels);
  board->slots = g_new0 (LidBoardSlot, (gsize)board->n_channels * 3 + 2);
  for (guint c = 0; c < board->n_channels; c++)
    {
      LidBoardChannel *channel = &board->channels[c];

      channel->socket = rarely (rand, 10) ? LID_NOWHERE : (int)(c / 2);
      channel->n_slots = 1 + pick (rand, 3);
      channel->slots = g_new (guint, channel->n_slots);
      for (guint k = 0; k < channel->n_slots; k++)
        {
          channel->slots[k] = board->n_slots;
          draw_slot (rand, &board->slots[board->n_slots], board->n_slots, channel->socket, (int)c);
          board->n_slots++;
        }
    }
  for (guint loose = rarely (rand, 4) ? 1 + pick (rand, 2) : 0; loose > 0; loose--)
    {
      int socket = rarely (rand, 2) ? LID_NOWHERE : (int)pick (rand, board->n_sockets);

      draw_slot (rand, &board->slots[board->n_slots], board->n_slots, socket, LID_NOWHERE);
      board->n_slots++;
    }
  board->slots = g_renew (LidBoardSlot, board->slots, board->n_slots);
  return board;
}

static guint32
draw_kinds (GRand *rand)
{
  return rarely (rand, 2) ? 0
                          : (1 + pick (rand, 3)) << LID_KIND_REGISTERED
                                | (rarely (rand, 4) ? 1u << LID_KIND_UNBUFFERED : 0);
}

static void
draw_table (GRand *rand, LidBoard *board)
{
  gboolean by_voltage = rarely (rand, 3);

  board->n_rates = rarely (rand, 6) ? 0 : 1 + pick (rand, 8);
  board->rates = g_new0 (LidRateRow, board->n_rates);
  for (guint i = 0; i < board->n_rates; i++)
    {
      LidRateRow *row = &board->rates[i];

      row->processor = !rarely (rand, 4) || board->n_processors == 0
                           ? LID_NOWHERE
                           : (int)pick (rand, board->n_processors);
      row->kinds = draw_kinds (rand);
      row->generations = rarely (rand, 4) ? (1 + pick (rand, 3)) << LID_GENERATION_DDR3 : 0;
      row->least_ranks = rarely (rand, 2) ? 1 + pick (rand, 4) : 0;
      row->most_ranks = rarely (rand, 3) ? row->least_ranks + pick (rand, 3) : 0;
      row->least_filled = rarely (rand, 2) ? 1 + pick (rand, 3) : 0;
      row->most_filled = rarely (rand, 3) ? row->least_filled + pick (rand, 2) : 0;
      row->slots = rarely (rand, 6) ? 1 + pick (rand, 3) : 0;
      row->voltage_mv = by_voltage && !rarely (rand, 3) ? voltages[pick (rand, 3)] : 0;
      row->rate = any_rate (rand);
    }
}

static void
draw_limits (GRand *rand, LidBoard *board)
{
  board->kinds = rarely (rand, 3) ? 0 : draw_kinds (rand);
  board->generations = rarely (rand, 2) ? (1 + pick (rand, 3)) << LID_GENERATION_DDR3 : 0;
  board->voltages = rarely (rand, 2) ? 1 + pick (rand, 7) : 0;
  board->rank_count = rarely (rand, 2) ? LID_COUNT_LABEL : LID_COUNT_LOGICAL;
  board->load_reduced_ranks = rarely (rand, 3) ? 2 : 0;
  board->n_processors = pick (rand, 3) == 0 ? 0 : 2;
  board->processors = g_new0 (LidProcessorModel, board->n_processors);
  for (guint m = 0; m < board->n_processors; m++)
    {
      board->processors[m].most_mib = any_rate (rand); /* says nothing of the rate */
      for (LidKind kind = 0; kind < LID_N_KINDS; kind++)
        if (kind < 2 || rarely (rand, 3))
          board->processors[m].rate[kind] = rate_or_none (rand, 3);
    }
  board->n_firmware = pick (rand, 3);
  board->firmware = g_new0 (LidFirmwareLevel, board->n_firmware);
  for (guint i = 0; i < board->n_firmware; i++)
    {
      board->firmware[i].level = g_strdup_printf ("%u", i);
      board->firmware[i].ceiling = rate_or_none (rand, 4);
    }
  board->rate_ceiling = rarely (rand, 4) ? any_rate (rand) : LID_RATE_UNKNOWN;
  board->rate_per_socket = rarely (rand, 2);
}

static LidPopulation *
draw_population (GRand *rand, const LidBoard *board)
{
  LidPopulation *population = lid_population_new (board);
  guint forgetful = rarely (rand, 2) ? 100000 : 8, empty = 1 + pick (rand, 4);

  for (guint i = 0; i < board->n_slots; i++)
    {
      if (board->slots[i].soldered == NULL && !rarely (rand, empty))
        {
          g_autoptr (LidModule) module = draw_module (rand, forgetful);

          lid_population_put (population, i, module);
          if (rarely (rand, 8))
            population->slots[i].state = LID_SLOT_NOT_SEEN;
        }
      population->slots[i].configured = rate_or_none (rand, 2);
    }
  for (guint s = 0; s < board->n_sockets; s++)
    population->processors[s]
        = (LidFittedProcessor){ !rarely (rand, 6), rarely (rand, 3) || board->n_processors == 0
                                                       ? LID_NOWHERE
                                                       : (int)pick (rand, board->n_processors) };
  population->firmware = g_strdup (rarely (rand, 3) ? NULL : rarely (rand, 2) ? "0" : "1");
  population->setup_limit = rarely (rand, 5) ? any_rate (rand) : LID_RATE_UNKNOWN;
  population->setup_mv = rarely (rand, 3) ? voltages[pick (rand, 3)] : 0;
  return population;
}

static Machine
draw (GRand *rand)
{
  Machine machine = { draw_board (rand), NULL, NULL, NULL };

  draw_limits (rand, machine.board);
  draw_table (rand, machine.board);
  machine.population = draw_population (rand, machine.board);
  machine.other = draw_population (rand, machine.board);
  machine.as_found = rarely (rand, 3)   ? machine.population
                     : rarely (rand, 2) ? machine.other
                                        : NULL;
  return machine;
}

static void
clear (Machine *machine)
{
  lid_population_free (machine->other);
  lid_population_free (machine->population);
  lid_board_unref (machine->board);
}

static void
check_row (const LidChannelRate *got, const LidChannelRate *wanted)
{
  g_assert_cmpint (got->row, ==, wanted->row);
  g_assert_cmpint (got->slowest, ==, wanted->slowest);
  g_assert_cmpuint (got->unknown_facts, ==, wanted->unknown_facts);
  g_assert_cmpint (got->processor_unknown, ==, wanted->processor_unknown);
  g_assert_cmpint (got->may_miss, ==, wanted->may_miss);
  g_assert_cmpint (got->row_index, ==, wanted->row_index);
  g_assert_cmpuint (got->table_least, ==, wanted->table_least);
  g_assert_cmpuint (got->table_most, ==, wanted->table_most);
  g_assert_cmpuint (got->table, ==, wanted->table);
}

static void
test_limits (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1984);
  guint open = 0, known = 0;

  for (guint round = 0; round < 8000; round++)
    {
      Machine m = draw (rand);
      g_autoptr (LidSurvey) survey = lid_survey_new (m.board, m.population);
      gboolean evidence = lid_population_is_evidence (m.population, m.as_found);
      LidFigures got, wanted;

      lid_figures_init (&got, m.board);
      lid_figures_init (&wanted, m.board);
      lid_running_rate_compute (survey, m.as_found, &got);
      slow_limits_compute (m.board, m.population, m.as_found, evidence, &wanted);
      for (guint c = 0; c < m.board->n_channels; c++)
        check_row (&got.rates[c], &wanted.rates[c]);
      g_assert_cmpuint (got.n_limits, ==, wanted.n_limits);
      for (guint i = 0; i < got.n_limits; i++)
        {
          g_assert_cmpint (got.limits[i].what, ==, wanted.limits[i].what);
          g_assert_cmpuint (got.limits[i].rate, ==, wanted.limits[i].rate);
          g_assert_cmpint (got.limits[i].binding, ==, wanted.limits[i].binding);
        }
      g_assert_cmpuint (got.running, ==, wanted.running);
      for (guint s = 0; s < m.board->n_sockets; s++)
        g_assert_cmpuint (got.sockets[s].running, ==, wanted.sockets[s].running);
      known += got.running != LID_RATE_UNKNOWN;
      open += got.running == LID_RATE_UNKNOWN && got.n_limits > 0;
      lid_figures_clear (&wanted);
      lid_figures_clear (&got);
      clear (&m);
    }
  g_assert_cmpuint (known, >, 1500);
  g_assert_cmpuint (open, >, 1500);
}

/* A channel asked about with fewer modules, or with more, than there are. */
static void
test_other_counts (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2112);

  for (guint round = 0; round < 6000; round++)
    {
      Machine m = draw (rand);
      g_autoptr (LidSurvey) survey = lid_survey_new (m.board, m.population);
      guint c = pick (rand, m.board->n_channels), more = 1 + pick (rand, 2);
      guint there = slow_rates_fitted (m.board, m.population, c);
      SlowChannel fewer = { .filled = pick (rand, there + 1), .voltages = pick (rand, 8) };
      SlowChannel with = { .filled = there + more,
                           .more = 1u << (LID_KIND_REGISTERED + pick (rand, 2)),
                           .more_ranks = pick (rand, 3) };
      LidChannelRate got, wanted;

      lid_rate_table_look_up (survey, c, fewer.filled, fewer.voltages, &got);
      wanted = slow_rates_channel (m.board, m.population, c, &fewer);
      check_row (&got, &wanted);
      lid_rate_table_look_up_more (survey, c, more, with.more_ranks, with.more, &got);
      wanted = slow_rates_channel (m.board, m.population, c, &with);
      check_row (&got, &wanted);
      clear (&m);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/running-limits/limits", test_limits);
  g_test_add_func ("/running-limits/other-counts", test_other_counts);
  return g_test_run ();
}
