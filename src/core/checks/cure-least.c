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

/* @after: gets what the checker says then, in place of what it said before. */
static gboolean
does (const LidCureWork *cure, const LidFinding *finding, GArray *moves, LidAssessment **after)
{
  LidCureCandidate own = { moves, NULL, FALSE };
  gboolean clears = lid_cure_clears (cure, finding, &own, FALSE) && own.after->figures.starts;

  lid_assessment_free (*after);
  *after = own.after;
  return clears;
}

/* Puts back what can be spared, from the first in the board's order of fitting on. */
static void
put_back (const LidCureWork *cure, const LidFinding *finding, GArray *moves, LidAssessment **after)
{
  guint at = 0;

  while (at < moves->len && moves->len > 1)
    {
      LidMove move = g_array_index (moves, LidMove, at);

      g_array_remove_index (moves, at);
      if (does (cure, finding, moves, after))
        at = 0;
      else
        g_array_insert_val (moves, at++, move);
    }
}

/* Where every module of a machine is named, none alone makes it start: so, from all of them in, the
 * last of the order goes out first, until the others do. */
static GArray *
take_last (const LidCureWork *cure,
           const LidFinding *finding,
           const GArray *all,
           LidAssessment **after)
{
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));

  for (guint left = all->len; left > 0; left--)
    {
      g_array_prepend_val (moves, g_array_index (all, LidMove, left - 1));
      if (does (cure, finding, moves, after))
        return g_steal_pointer (&moves);
    }
  return NULL;
}

/**
 * lid_cure_least:
 * @cure: at work
 * @finding: one whose remedy only takes modules out
 * @after: (out) (transfer full) (nullable): what the checker says after the moves that are
 * returned; NULL where that is not at hand
 *
 * One module after the other is put back in the board's order of fitting, and stays where the
 * finding stays away; then those that had to stay out are tried again, until none can be spared.
 * Where the machine never starts that way, the last of the order are taken out one after the other,
 * and then so.
 *
 * Returns: (transfer full) (nullable): moves of it that cannot be spared; NULL where they do not
 *   clear it, or the machine would not start with what is left
 */
GArray *
lid_cure_least (const LidCureWork *cure, const LidFinding *finding, LidAssessment **after)
{
  g_autoptr (GArray) all = g_array_copy (finding->remedy->moves);
  g_autoptr (GArray) moves = NULL;

  *after = NULL;
  if (all->len > MOST_TRIED)
    return NULL;
  g_array_sort_with_data (all, compare_places, cure->check);
  moves = g_array_copy (all);
  put_back (cure, finding, moves, after);
  if (does (cure, finding, moves, after))
    return g_steal_pointer (&moves);
  g_clear_pointer (&moves, g_array_unref);
  moves = take_last (cure, finding, all, after);
  if (moves != NULL)
    put_back (cure, finding, moves, after);
  g_clear_pointer (after, lid_assessment_free); /* of what was tried last */
  return g_steal_pointer (&moves);
}
