/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which sockets may be filled alike (planner/columns.c): those in which what stays is the same. */
#include "planner-large.h"
#include "planner/columns.h"

/* Persistent memory stays where it is: with the same at each processor they are still filled alike,
 * with another at one of them, or one that ran at another rate, they cannot be. */
static void
test_persistent (void)
{
  for (guint other = 0; other < 3; other++)
    {
      g_autoptr (PlannerLarge) q = planner_large_new (&planner_large_boards[1], 200, FALSE);
      const LidBoard *board = q->machine->board;
      LidPopulation *found = q->machine->population;
      g_autoptr (LidCandidates) candidates = NULL;

      for (guint s = 0; s < board->n_sockets; s++)
        {
          guint slot = board->channels[board->sockets[s].first_channel].slots[1];
          g_autoptr (LidModule) module = lid_module_copy (q->modules->pdata[s > 0 && other == 1]);

          module->persistent = TRUE;
          lid_population_put (found, slot, module);
          found->slots[slot].configured = s > 0 && other == 2 ? 3 * 2400 : 8000;
        }
      candidates = lid_candidates_new (&q->question, &q->wish);
      g_assert_cmpint (lid_plan_columns_sockets_match (&q->question, candidates), ==, other == 0);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planner-columns/persistent", test_persistent);
  return g_test_run ();
}
