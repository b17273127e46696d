/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the planner takes on the boards of issue 5 with a shelf of 200 rows and of 100,000, how
 * that grows with each kind of module and each channel, and GLPK on the one question that is linear
 * beside it, each from the rows of the shelf to the answer. Processor time. Aim: each board at most
 * 0.5 s and 64 MB, GLPK at least 50 times slower. */
#include "planner-large.h"

#ifdef HAVE_GLPK
#include "planner-glpk.h"
#endif

#include <sys/resource.h>
#include <time.h>

static double
seconds (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

static double
plan_once (const PlannerLargeBoard *board, guint n_rows, LidReach hands, const char *what)
{
  g_autoptr (PlannerLarge) q = planner_large_new (board, n_rows, FALSE);
  g_autoptr (LidPlan) plan = NULL;
  struct rusage usage;
  double before = seconds ();

  q->wish.hands = hands;
  plan = lid_plan_new (&q->question, &q->wish, NULL, NULL);
  before = seconds () - before;
  getrusage (RUSAGE_SELF, &usage);
  g_print ("plan %s, %u rows%s: %.3f s, %u on the front, %s, %ld MB\n", board->name, n_rows, what,
           before, plan->front->len, plan->proved ? "proved" : "not proved",
           usage.ru_maxrss / 1024);
  return before;
}

#ifdef HAVE_GLPK
static gint64
cheapest_by_ours (PlannerLarge *q)
{
  g_autoptr (LidPlan) plan = lid_plan_new (&q->question, &q->wish, NULL, NULL);

  return plan->front->len > 0 ? ((LidPlanOption *)plan->front->pdata[0])->cost_minor : -1;
}
#endif

/* As the command line asks it: plan --capacity GB --cheapest. */
static void
measure_glpk (const PlannerLargeBoard *board, guint n_rows)
{
#ifdef HAVE_GLPK
  g_autoptr (PlannerLarge) q = planner_large_new (board, n_rows, TRUE);
  guint n = n_rows < 1000 ? 20 : 3;
  double ours, theirs;
  gboolean same = TRUE;

  q->wish.what = LID_WISH_CHEAPEST;
  q->wish.any = TRUE; /* so GLPK answers: one of the cheapest, whichever */
  ours = seconds ();
  for (guint i = 0; i < n; i++)
    cheapest_by_ours (q);
  ours = (seconds () - ours) / n;
  theirs = seconds ();
  for (guint i = 0; i < n; i++)
    same = planner_glpk_cheapest (q) == cheapest_by_ours (q) && same;
  theirs = (seconds () - theirs) / n - ours;
  g_print ("cheapest alone on %s, %u rows: ours %.2f ms, GLPK %.2f ms, ratio %.1f, %s\n",
           board->name, n_rows, ours * 1e3, theirs * 1e3, theirs / ours,
           same ? "the same cost" : "another cost");
#endif
}

static void
measure_growth (void)
{
  PlannerLargeBoard board = planner_large_boards[1];

  for (board.kinds = 2; board.kinds <= 10; board.kinds += 2)
    {
      g_autofree char *what = g_strdup_printf (", growth by kind, %u kinds", board.kinds);

      plan_once (&board, 200, LID_HANDS_PULL, what);
    }
  board = planner_large_boards[1];
  for (board.channels = 2; board.channels <= 8; board.channels += 2)
    {
      g_autofree char *what = g_strdup_printf (", growth by channel, %u a socket", board.channels);

      board.wish_gb = 85 * board.channels;
      plan_once (&board, 200, LID_HANDS_PULL, what);
    }
}

int
main (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (planner_large_boards); i++)
    {
      plan_once (&planner_large_boards[i], 200, LID_HANDS_MOVE, ", move");
      plan_once (&planner_large_boards[i], 200, LID_HANDS_PULL, ", pull");
      plan_once (&planner_large_boards[i], 100000, LID_HANDS_PULL, ", pull");
    }
  measure_growth ();
  for (guint i = 0; i < G_N_ELEMENTS (planner_large_boards); i++)
    {
      measure_glpk (&planner_large_boards[i], 200);
      measure_glpk (&planner_large_boards[i], 100000);
    }
  return 0;
}
