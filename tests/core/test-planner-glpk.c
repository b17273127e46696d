/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cheapest option on large boards against GLPK's integer optimum, over shelves and wishes. */
#include "planner-glpk.h"

static void
try_board (const PlannerLargeBoard *board, guint n_rows, gint64 wish_gb)
{
  g_autoptr (PlannerLarge) q = planner_large_new (board, n_rows, TRUE);
  g_autoptr (LidPlan) plan = NULL;
  gint64 cheapest;

  q->wish.amount = wish_gb * 1024;
  q->wish.budget = 6000000;
  plan = lid_plan_new (&q->question, &q->wish, NULL, NULL);
  cheapest = planner_glpk_cheapest (q);
  g_test_message ("%s, %u rows, %" G_GINT64_FORMAT " GB: %" G_GINT64_FORMAT ", %s", board->name,
                  n_rows, wish_gb, cheapest, plan->proved ? "proved" : "not proved");
  if (cheapest == G_MAXINT64)
    {
      g_assert_cmpuint (plan->front->len, ==, 0);
      return;
    }
  g_assert_cmpuint (plan->front->len, >, 0);
  g_assert_cmpint (((const LidPlanOption *)plan->front->pdata[0])->cost_minor, >=, cheapest);
  if (plan->proved)
    g_assert_cmpint (((const LidPlanOption *)plan->front->pdata[0])->cost_minor, ==, cheapest);
}

static void
test_cheapest (void)
{
  static const gint64 wishes[] = { 96, 200, 384 };

  for (guint w = 0; w < G_N_ELEMENTS (wishes); w++)
    {
      try_board (&planner_large_boards[0], 12, wishes[w] / 2);
      try_board (&planner_large_boards[1], 16, wishes[w]);
      try_board (&planner_large_boards[1], 60, 2 * wishes[w]);
      try_board (&planner_large_boards[4], 60, 6 * wishes[w]);
    }
}

/* The cheapest alone, as the quick way to it tells it: the same, and without a search. */
static void
test_cheapest_alone (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (planner_large_boards); i++)
    for (gint64 wish_gb = 64; wish_gb <= 4096; wish_gb *= 2)
      {
        g_autoptr (PlannerLarge) q = planner_large_new (&planner_large_boards[i], 500, TRUE);
        g_autoptr (LidPlan) plan = NULL;
        gint64 cheapest;

        q->wish.amount = wish_gb * 1024;
        q->wish.what = LID_WISH_CHEAPEST;
        q->wish.any = TRUE;
        cheapest = planner_glpk_cheapest (q);
        plan = lid_plan_new (&q->question, &q->wish, NULL, NULL);
        g_assert_true (plan->proved);
        g_assert_cmpuint (plan->front->len, ==, cheapest < G_MAXINT64);
        if (cheapest == G_MAXINT64)
          continue;
        g_assert_cmpint (((const LidPlanOption *)plan->front->pdata[0])->cost_minor, ==, cheapest);
        g_assert_cmpuint (plan->steps, ==, 0);
      }
}

/* The even population of the highest rate, as fast as the machine can be: what GLPK says it costs,
 * placed channel by channel, is the least that any option that fast costs. At a lower rate the
 * front may know something cheaper that is as fast: more modules of a higher one. */
static void
test_even (void)
{
  static const guint boards[] = { 0, 1, 2, 4 };
  guint n_even = 0;

  for (guint i = 0; i < G_N_ELEMENTS (boards); i++)
    for (guint slots = 1; slots <= 2; slots++)
      {
        g_autoptr (PlannerLarge) q = planner_large_new (&planner_large_boards[boards[i]], 60, TRUE);
        LidRate rate = slots == 1 ? 9600 : 8800; /* the board's table: 3200 and 2933 MT/s */
        gint64 theirs, ours = G_MAXINT64;
        g_autoptr (LidPlan) plan = NULL;

        q->wish.amount = (gint64)q->machine->board->n_channels * (slots == 1 ? 32 : 48) * 1024;
        q->wish.budget = 6000000;
        plan = lid_plan_new (&q->question, &q->wish, NULL, NULL);
        theirs = planner_glpk_even (q, rate, slots);
        g_assert_true (plan->proved);
        for (guint k = 0; k < plan->front->len; k++)
          {
            const LidPlanOption *option = plan->front->pdata[k];
            LidRatio all = lid_ratio ((gint64)rate * 8 * q->machine->board->n_channels
                                          * q->machine->board->efficiency,
                                      3 * 10000);

            if (lid_ratio_compare (option->whole_mbs, all) >= 0)
              ours = MIN (ours, option->cost_minor);
          }
        if (slots == 1)
          g_assert_cmpint (ours, ==, theirs);
        else
          g_assert_cmpint (ours, <=, theirs);
        n_even += theirs < G_MAXINT64 && ours == theirs;
      }
  g_assert_cmpuint (n_even, >=, 6);
}

/* So that the test cannot pass by proving nothing. */
static void
test_most_are_proved (void)
{
  guint n = 0;

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (PlannerLarge) q = planner_large_new (&planner_large_boards[i], 60, TRUE);
      g_autoptr (LidPlan) plan = lid_plan_new (&q->question, &q->wish, NULL, NULL);

      n += plan->proved
           && ((const LidPlanOption *)plan->front->pdata[0])->cost_minor
                  == planner_glpk_cheapest (q);
    }
  g_assert_cmpuint (n, ==, 2);
  planner_glpk_done ();
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planner-glpk/cheapest", test_cheapest);
  g_test_add_func ("/planner-glpk/cheapest-alone", test_cheapest_alone);
  g_test_add_func ("/planner-glpk/even", test_even);
  g_test_add_func ("/planner-glpk/most-are-proved", test_most_are_proved);
  return g_test_run ();
}
