/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner-large.h"

#include "facts/label.h"

static const char *const labels[] = {
  "16GB 1Rx4 PC4-2933Y-RC2-12",  "32GB 2Rx4 PC4-2933Y-RB2-12", "8GB 1Rx8 PC4-2666V-RD1-11",
  "64GB 2Rx4 PC4-3200AA-RB2-12", "16GB 2Rx8 PC4-2666V-RE2-11", "32GB 1Rx4 PC4-3200AA-RC2-12",
  "8GB 1Rx4 PC4-2400T-RC1-11",   "16GB 2Rx4 PC4-2400T-RA1-11", "32GB 2Rx8 PC4-3200AA-RE2-12",
  "64GB 2Rx4 PC4-2933Y-RB2-12",
};

static const gint32 prices[] = { 3600, 6100, 1900, 12900, 3300, 6900, 1500, 2900, 6600, 11800 };

const PlannerLargeBoard planner_large_boards[5] = {
  { "1x2x2, 4 kinds", 1, 1, 2, 2, 4, "[1, 2]", 64, FALSE },
  { "2x6x2, 8 kinds", 2, 2, 6, 2, 8, "[1, 2, 3, 4, 6]", 512, FALSE },
  { "2x8x2, 8 kinds", 2, 4, 8, 2, 8, "[1, 2, 4, 6, 8]", 768, FALSE },
  { "2x12x2, 10 kinds, sockets free", 2, 4, 12, 2, 10, "[1, 2, 4, 6, 8, 10, 12]", 1024, TRUE },
  { "8x6x2, 6 kinds", 8, 2, 6, 2, 6, "[1, 2, 3, 4, 6]", 2048, FALSE },
};

static LidModule *
module_of (const char *text, guint index)
{
  LidLabel label;
  LidLabelFault fault;
  LidModule *module;

  g_assert_true (lid_label_parse (text, -1, &label, &fault, NULL));
  module = lid_label_facts_to_module (&label);
  module->part = g_strdup_printf ("TRN-%u", index);
  return module;
}

static FiguresCase *
machine_of (const PlannerLargeBoard *board)
{
  g_autoptr (GString) slots = g_string_new (NULL);

  for (guint i = 0; i < board->channels; i++)
    g_string_append_printf (slots, "%s%u", i > 0 ? ", " : "", board->slots);
  return figures_case_parse (
      "{\"layout\": {\"sockets\": %u, \"controllers\": %u, \"slots\": [%s]}, \"board\": "
      "{\"takes\": {\"generations\": [\"DDR4\"], \"kinds\": [\"registered\"], \"voltages_mv\": "
      "[1200]}, \"rates\": [{\"filled\": 1, \"mts\": 3200, \"source\": \"invented\"}, "
      "{\"filled\": 2, \"mts\": 2933, \"source\": \"invented\"}], \"mixing\": [{\"mix\": "
      "\"widths\", \"allowed\": true, \"source\": \"invented\"}, {\"mix\": \"densities\", "
      "\"allowed\": true, \"source\": \"invented\"}], \"interleave\": {\"model\": \"ways\", "
      "\"ways\": %s}}, \"modules\": {}}",
      board->sockets, board->controllers, slots->str, board->ways);
}

/* Every other channel holds one module; a board of few channels has one on each. */
static LidPopulation *
find_some (const PlannerLarge *q, const PlannerLargeBoard *board)
{
  LidPopulation *found = lid_population_new (q->machine->board);

  for (guint i = 0; i < found->n_slots; i++)
    {
      const LidBoardSlot *slot = &q->machine->board->slots[i];

      if (slot->position == 1 && (slot->channel % 2 == 0 || board->channels < 4))
        lid_population_put (found, i, q->modules->pdata[0]);
    }
  return found;
}

/**
 * planner_large_new:
 * @board: one of planner_large_boards, or a like one
 * @n_rows: rows of the shelf, shared among the kinds
 * @empty: nothing is found in the machine
 */
PlannerLarge *
planner_large_new (const PlannerLargeBoard *board, guint n_rows, gboolean empty)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20261128);
  PlannerLarge *q = g_new0 (PlannerLarge, 1);

  q->machine = machine_of (board);
  q->modules = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_module_unref);
  q->goods = g_array_new (FALSE, TRUE, sizeof (LidGood));
  for (guint i = 0; i < board->kinds; i++)
    g_ptr_array_add (q->modules, module_of (labels[i], i));
  for (guint i = 0; i < n_rows; i++)
    {
      guint kind = i % board->kinds;
      LidGood good = { .module = q->modules->pdata[kind],
                       .part = ((LidModule *)q->modules->pdata[kind])->part,
                       .bin = "K-1",
                       .count = (guint)g_rand_int_range (rand, 1, 9),
                       .price_minor = prices[kind] + g_rand_int_range (rand, 0, 900) };

      g_array_append_val (q->goods, good);
    }
  lid_population_free (q->machine->population);
  q->machine->population = empty ? lid_population_new (q->machine->board) : find_some (q, board);
  q->question = (LidPlanQuestion){ .board = q->machine->board,
                                   .as_found = q->machine->population,
                                   .goods = (const LidGood *)q->goods->data,
                                   .n_goods = q->goods->len };
  q->wish = (LidWish){ .what = LID_WISH_CAPACITY,
                       .amount = board->wish_gb * 1024,
                       .hands = LID_HANDS_PULL,
                       .sockets_free = board->sockets_free };
  return q;
}

/**
 * planner_large_random:
 *
 * Returns: (transfer full): a board, shelf and wish of no particular size; any plan of equals will
 * do
 */
PlannerLarge *
planner_large_random (guint32 seed)
{
  static const char *const ways[]
      = { "[1, 2]", "[1, 2, 3, 4, 6]", "[1, 2, 4, 6, 8]", "[1, 3, 5, 7, 8]" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  PlannerLargeBoard board = { .name = "random",
                              .sockets = (guint)g_rand_int_range (rand, 1, 3),
                              .controllers = 1,
                              .channels = (guint)g_rand_int_range (rand, 2, 9),
                              .slots = (guint)g_rand_int_range (rand, 1, 4),
                              .kinds = (guint)g_rand_int_range (rand, 3, 9),
                              .ways = ways[g_rand_int_range (rand, 0, 4)],
                              .sockets_free = g_rand_boolean (rand) };
  PlannerLarge *q;

  board.wish_gb = g_rand_int_range (rand, 4, 60) * 8 * board.sockets;
  q = planner_large_new (&board, (guint)g_rand_int_range (rand, 10, 100),
                         g_rand_int_range (rand, 0, 4) == 0);
  q->wish.hands = (LidReach)g_rand_int_range (rand, 0, LID_N_HANDS);
  q->wish.free_slots = g_rand_int_range (rand, 0, 4) == 0 ? 2 : 0;
  q->wish.any = TRUE;
  if (g_rand_int_range (rand, 0, 4) == 0)
    {
      q->wish.what = LID_WISH_SPEND;
      q->wish.amount = board.wish_gb * 180;
    }
  return q;
}

void
planner_large_free (PlannerLarge *q)
{
  if (q == NULL)
    return;
  lid_survey_free (g_steal_pointer (&q->machine->survey));
  figures_case_free (q->machine);
  g_ptr_array_unref (q->modules);
  g_array_unref (q->goods);
  g_free (q);
}
