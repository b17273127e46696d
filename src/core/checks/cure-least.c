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
does (const LidCureWork *cure, const LidFinding *finding, GArray *moves, gboolean *starts)
{
  LidCureCandidate own = { moves, NULL };
  gboolean clears = lid_cure_clears (cure, finding, &own, FALSE);

  *starts = own.after->figures.starts;
  lid_assessment_free (own.after);
  return clears;
}

/**
 * lid_cure_least:
 * @cure: at work
 * @finding: one whose remedy only takes modules out
 *
 * One module after the other is put back in the board's order of fitting, and stays where the
 * finding stays away.
 *
 * Returns: (transfer full) (nullable): moves of it that cannot be spared; NULL where they do not
 *   clear it, or the machine would not start with what is left
 */
GArray *
lid_cure_least (const LidCureWork *cure, const LidFinding *finding)
{
  g_autoptr (GArray) moves = g_array_copy (finding->remedy->moves);
  gboolean starts = FALSE;
  guint at = 0;

  g_array_sort_with_data (moves, compare_places, cure->check);
  if (moves->len > MOST_TRIED || !does (cure, finding, moves, &starts))
    return NULL;
  for (guint left = moves->len; left > 0 && moves->len > 1; left--)
    {
      LidMove put_back = g_array_index (moves, LidMove, at);
      gboolean starts_so;

      g_array_remove_index (moves, at);
      if (does (cure, finding, moves, &starts_so) && starts_so)
        starts = TRUE;
      else
        g_array_insert_val (moves, at++, put_back);
    }
  return starts ? g_steal_pointer (&moves) : NULL;
}
