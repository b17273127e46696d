/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Machines drawn at random with everything in them that may be not told: facts of modules, models
 * of processors, the firmware's level, the channel or the processor of a slot. No file could hold
 * most of the boards; the figures must be right for them all the same. */
#include "random-machine.h"

static const guint voltages[] = { 1250, 1350, 1500 };

guint
random_pick (GRand *rand, guint n)
{
  return (guint)g_rand_int_range (rand, 0, (gint32)n);
}

/* One time in @n. */
gboolean
random_rarely (GRand *rand, guint n)
{
  return random_pick (rand, n) == 0;
}

static LidRate
any_rate (GRand *rand)
{
  return 3200 + 400 * random_pick (rand, 6);
}

static LidRate
rate_or_none (GRand *rand, guint n)
{
  return random_rarely (rand, n) ? LID_RATE_UNKNOWN : any_rate (rand);
}

static LidModule *
draw_module (GRand *rand, guint forgetful)
{
  static const LidKind kinds[]
      = { LID_KIND_REGISTERED,   LID_KIND_REGISTERED, LID_KIND_LOAD_REDUCED,
          LID_KIND_LOAD_REDUCED, LID_KIND_UNBUFFERED, LID_KIND_MULTIPLEXED_RANK };
  LidModule *module = lid_module_new ();
  const gint32 told[][2] = {
    { LID_FACT_GENERATION, LID_GENERATION_DDR3 + (gint32)random_pick (rand, 2) },
    { LID_FACT_KIND, kinds[random_pick (rand, G_N_ELEMENTS (kinds))] },
    { LID_FACT_CAPACITY, 8192 },
    { LID_FACT_RANKS, 1 << random_pick (rand, 3) },
    { LID_FACT_LOGICAL_RANKS, 1 << random_pick (rand, 4) },
    { LID_FACT_RATED, (gint32)any_rate (rand) },
    { LID_FACT_VOLTAGE, 1 + (gint32)random_pick (rand, 7) },
  };

  for (guint i = 0; i < G_N_ELEMENTS (told); i++)
    if (!random_rarely (rand, forgetful))
      lid_module_set (module, (LidFact)told[i][0], told[i][1], LID_BASIS_TOLD);
  return module;
}

static void
draw_slot (GRand *rand, LidBoardSlot *slot, guint index, int socket, int channel)
{
  *slot = (LidBoardSlot){ .socket = socket, .channel = channel };
  slot->id = g_strdup_printf ("%u", index);
  if (random_rarely (rand, 12))
    slot->soldered = draw_module (rand, 8);
}

/* Up to four channels of a socket, and one more of no socket that is told, as on a board that was
 * made from an inventory. */
static void
draw_sockets (GRand *rand, LidBoard *board)
{
  board->n_sockets = random_rarely (rand, 200) ? LID_BOARD_MAX_SOCKETS : 1 + random_pick (rand, 3);
  board->sockets = g_new0 (LidBoardSocket, board->n_sockets);
  for (guint s = 0; s < board->n_sockets; s++)
    {
      board->sockets[s].first_channel = board->n_channels;
      board->sockets[s].n_channels = 1 + random_pick (rand, 4);
      board->sockets[s].n_controllers = 1 + random_pick (rand, 2);
      board->n_channels += board->sockets[s].n_channels;
    }
  board->sockets_told = !random_rarely (rand, 5);
  board->channels = g_new0 (LidBoardChannel, board->n_channels + !board->sockets_told);
  for (guint s = 0; s < board->n_sockets; s++)
    for (guint i = 0; i < board->sockets[s].n_channels; i++)
      {
        LidBoardChannel *channel = &board->channels[board->sockets[s].first_channel + i];

        channel->socket = (int)s;
        channel->controller
            = (int)(i * board->sockets[s].n_controllers / board->sockets[s].n_channels) + 1;
      }
  if (!board->sockets_told)
    board->channels[board->n_channels++].socket = LID_NOWHERE;
}

/* Up to three slots of a channel, and some that hang on none that is told. */
static void
draw_slots (GRand *rand, LidBoard *board)
{
  guint loose = random_rarely (rand, 4) ? 1 + random_pick (rand, 2) : 0;

  board->slots = g_new0 (LidBoardSlot, (gsize)board->n_channels * 3 + loose);
  for (guint c = 0; c < board->n_channels; c++)
    {
      LidBoardChannel *channel = &board->channels[c];

      channel->n_slots = 1 + random_pick (rand, 3);
      channel->slots = g_new (guint, channel->n_slots);
      for (guint k = 0; k < channel->n_slots; k++)
        {
          channel->slots[k] = board->n_slots;
          draw_slot (rand, &board->slots[board->n_slots], board->n_slots, channel->socket, (int)c);
          board->n_slots++;
        }
    }
  board->channels_told = loose == 0;
  for (; loose > 0; loose--)
    {
      int socket
          = random_rarely (rand, 2) ? LID_NOWHERE : (int)random_pick (rand, board->n_sockets);

      draw_slot (rand, &board->slots[board->n_slots], board->n_slots, socket, LID_NOWHERE);
      board->n_slots++;
    }
  board->slots = g_renew (LidBoardSlot, board->slots, board->n_slots);
}

static guint32
draw_kinds (GRand *rand)
{
  return random_rarely (rand, 2) ? 0
                                 : (1 + random_pick (rand, 3)) << LID_KIND_REGISTERED
                                       | (random_rarely (rand, 4) ? 1u << LID_KIND_UNBUFFERED : 0);
}

static void
draw_table (GRand *rand, LidBoard *board)
{
  gboolean by_voltage = random_rarely (rand, 3);

  board->n_rates = random_rarely (rand, 6) ? 0 : 1 + random_pick (rand, 8);
  board->rates = g_new0 (LidRateRow, board->n_rates);
  for (guint i = 0; i < board->n_rates; i++)
    {
      LidRateRow *row = &board->rates[i];

      row->processor = !random_rarely (rand, 4) || board->n_processors == 0
                           ? LID_NOWHERE
                           : (int)random_pick (rand, board->n_processors);
      row->kinds = draw_kinds (rand);
      row->generations
          = random_rarely (rand, 4) ? (1 + random_pick (rand, 3)) << LID_GENERATION_DDR3 : 0;
      row->least_ranks = random_rarely (rand, 2) ? 1 + random_pick (rand, 4) : 0;
      row->most_ranks = random_rarely (rand, 3) ? row->least_ranks + random_pick (rand, 3) : 0;
      row->least_filled = random_rarely (rand, 2) ? 1 + random_pick (rand, 3) : 0;
      row->most_filled = random_rarely (rand, 3) ? row->least_filled + random_pick (rand, 2) : 0;
      row->slots = random_rarely (rand, 6) ? 1 + random_pick (rand, 3) : 0;
      row->voltage_mv
          = by_voltage && !random_rarely (rand, 3) ? voltages[random_pick (rand, 3)] : 0;
      row->rate = any_rate (rand);
    }
}

static void
draw_limits (GRand *rand, LidBoard *board)
{
  board->kinds = random_rarely (rand, 3) ? 0 : draw_kinds (rand);
  board->generations
      = random_rarely (rand, 2) ? (1 + random_pick (rand, 3)) << LID_GENERATION_DDR3 : 0;
  board->voltages = random_rarely (rand, 2) ? 1 + random_pick (rand, 7) : 0;
  board->rank_count = random_rarely (rand, 2) ? LID_COUNT_LABEL : LID_COUNT_LOGICAL;
  board->load_reduced_ranks = random_rarely (rand, 3) ? 2 : 0;
  board->n_processors = random_pick (rand, 3) == 0 ? 0 : 2;
  board->processors = g_new0 (LidProcessorModel, board->n_processors);
  for (guint m = 0; m < board->n_processors; m++)
    {
      board->processors[m].most_mib = any_rate (rand); /* says nothing of the rate */
      for (LidKind kind = 0; kind < LID_N_KINDS; kind++)
        if (kind < 2 || random_rarely (rand, 3))
          board->processors[m].rate[kind] = rate_or_none (rand, 3);
    }
  board->n_firmware = random_pick (rand, 3);
  board->firmware = g_new0 (LidFirmwareLevel, board->n_firmware);
  for (guint i = 0; i < board->n_firmware; i++)
    {
      board->firmware[i].level = g_strdup_printf ("%u", i);
      board->firmware[i].ceiling = rate_or_none (rand, 4);
    }
  board->rate_ceiling = random_rarely (rand, 4) ? any_rate (rand) : LID_RATE_UNKNOWN;
  board->rate_per_socket = random_rarely (rand, 2);
}

static LidPopulation *
draw_population (GRand *rand, const LidBoard *board)
{
  LidPopulation *population = lid_population_new (board);
  guint forgetful = random_rarely (rand, 2) ? 100000 : 8, empty = 1 + random_pick (rand, 4);

  for (guint i = 0; i < board->n_slots; i++)
    {
      if (board->slots[i].soldered == NULL && !random_rarely (rand, empty))
        {
          g_autoptr (LidModule) module = draw_module (rand, forgetful);

          lid_population_put (population, i, module);
          if (random_rarely (rand, 8))
            population->slots[i].state = LID_SLOT_NOT_SEEN;
        }
      population->slots[i].configured = rate_or_none (rand, 2);
    }
  for (guint s = 0; s < board->n_sockets; s++)
    population->processors[s]
        = (LidFittedProcessor){ !random_rarely (rand, 6),
                                random_rarely (rand, 3) || board->n_processors == 0
                                    ? LID_NOWHERE
                                    : (int)random_pick (rand, board->n_processors) };
  population->firmware = g_strdup (random_rarely (rand, 3)   ? NULL
                                   : random_rarely (rand, 2) ? "0"
                                                             : "1");
  population->setup_limit = random_rarely (rand, 5) ? any_rate (rand) : LID_RATE_UNKNOWN;
  population->setup_mv = random_rarely (rand, 3) ? voltages[random_pick (rand, 3)] : 0;
  return population;
}

/**
 * random_machine_draw:
 *
 * Returns: to be given back with random_machine_clear()
 */
RandomMachine
random_machine_draw (GRand *rand)
{
  RandomMachine machine = { lid_board_new (), NULL, NULL, NULL };

  machine.board->derived = random_rarely (rand, 4);
  draw_sockets (rand, machine.board);
  draw_slots (rand, machine.board);
  draw_limits (rand, machine.board);
  draw_table (rand, machine.board);
  machine.population = draw_population (rand, machine.board);
  machine.other = draw_population (rand, machine.board);
  machine.as_found = random_rarely (rand, 3)   ? machine.population
                     : random_rarely (rand, 2) ? machine.other
                                               : NULL;
  return machine;
}

void
random_machine_clear (RandomMachine *machine)
{
  lid_population_free (machine->other);
  lid_population_free (machine->population);
  lid_board_unref (machine->board);
}
