/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Leaving slots empty is the plainest remedy, and no more of them than it takes. */
#include "checks/cure-private.h"

#define MOST_TRIED 64u

/* The order in which modules are put back: as the board wants them fitted. */
static int
compare_places (gconstpointer a, gconstpointer b, gpointer data)
{
  const LidCheck *check = data;
  const LidMove *x = a, *y = b;

  return (int)check->place[x->from] - (int)check->place[y->from];
}

static gboolean
does (const LidCureWork *cure, const LidFinding *finding, GArray *moves)
{
  LidCureCandidate own = { moves, NULL };
  gboolean clears = lid_cure_clears (cure, finding, &own, FALSE) && own.after->figures.starts;

  lid_assessment_free (own.after);
  return clears;
}

/**
 * lid_cure_least:
 * @cure: at work
 * @finding: one whose remedy only takes modules out
 *
 * One module after the other is put back in the board's order of fitting, and stays where the
 * finding stays away; then those that had to stay out are tried again, until none can be spared.
 *
 * Returns: (transfer full) (nullable): moves of it that cannot be spared; NULL where they do not
 *   clear it, or the machine would not start with what is left
 */
GArray *
lid_cure_least (const LidCureWork *cure, const LidFinding *finding)
{
  g_autoptr (GArray) moves = g_array_copy (finding->remedy->moves);
  guint at = 0;

  if (moves->len > MOST_TRIED)
    return NULL;
  g_array_sort_with_data (moves, compare_places, cure->check);
  while (at < moves->len && moves->len > 1)
    {
      LidMove put_back = g_array_index (moves, LidMove, at);

      g_array_remove_index (moves, at);
      if (does (cure, finding, moves))
        at = 0;
      else
        g_array_insert_val (moves, at++, put_back);
    }
  return does (cure, finding, moves) ? g_steal_pointer (&moves) : NULL;
}
