/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The moves that are tried for a finding, and the best of them. */
#include "checks/cure-private.h"

#include <string.h>

#define MOST_FITTED 8u /* more from the tray in one go is a plan, not a remedy */

void
lid_cure_candidate_free (gpointer data)
{
  LidCureCandidate *candidate = data;

  g_array_unref (candidate->moves);
  lid_assessment_free (candidate->after);
  g_free (candidate);
}

static gboolean
is_known (const GPtrArray *candidates, const GArray *moves)
{
  gboolean known = FALSE;

  for (guint i = candidates->len; !known && i-- > 0;)
    {
      const GArray *other = ((LidCureCandidate *)candidates->pdata[i])->moves;

      known = other->len == moves->len;
      for (guint k = 0; known && k < moves->len; k++)
        known = g_array_index (other, LidMove, k).from == g_array_index (moves, LidMove, k).from
                && g_array_index (other, LidMove, k).to == g_array_index (moves, LidMove, k).to
                && g_array_index (other, LidMove, k).module
                       == g_array_index (moves, LidMove, k).module;
    }
  return known;
}

/* Takes @moves; nothing is added for NULL, none, or what is there already: judging takes most of
 * the time. */
static void
add_candidate (GPtrArray *candidates, GArray *moves)
{
  LidCureCandidate *candidate;

  if (moves == NULL || moves->len == 0 || is_known (candidates, moves))
    {
      g_clear_pointer (&moves, g_array_unref);
      return;
    }
  candidate = g_new0 (LidCureCandidate, 1);
  candidate->moves = moves;
  g_ptr_array_add (candidates, candidate);
}

/* Whether two modules may stand in for each other. */
gboolean
lid_cure_same (const LidModule *a, const LidModule *b)
{
  return a == b
         || (memcmp (a->value, b->value, sizeof a->value) == 0
             && memcmp (a->basis, b->basis, sizeof a->basis) == 0 && a->persistent == b->persistent
             && g_strcmp0 (a->part, b->part) == 0)
         || lid_module_same (a, b);
}

/* Keeps in @best the candidate that clears it best. */
static void
try_all (const LidCureWork *cure,
         const LidFinding *finding,
         GPtrArray *candidates,
         LidCureCandidate **best)
{
  for (guint i = 0; i < candidates->len; i++)
    {
      LidCureCandidate *candidate = candidates->pdata[i];

      if (lid_cure_clears (cure, finding, candidate, TRUE)
          && (*best == NULL || lid_cure_is_better (cure, candidate, *best)))
        *best = candidate;
    }
}

/* One of each sort on the tray. */
static GPtrArray *
sorts_at_hand (const LidCheck *check)
{
  GPtrArray *sorts = g_ptr_array_new ();

  for (guint i = 0; check->at_hand != NULL && i < check->at_hand->len; i++)
    {
      gboolean known = FALSE;

      for (guint k = 0; !known && k < sorts->len; k++)
        known = lid_cure_same (sorts->pdata[k], check->at_hand->pdata[i]);
      if (!known)
        g_ptr_array_add (sorts, check->at_hand->pdata[i]);
    }
  return sorts;
}

/* The fewest first, sort by sort. */
static void
make_fitted (LidCureWork *cure)
{
  g_autoptr (GPtrArray) sorts = sorts_at_hand (cure->check);

  cure->fitted = g_ptr_array_new_with_free_func (lid_cure_candidate_free);
  for (guint n = 1; n <= MOST_FITTED; n++)
    for (guint i = 0; i < sorts->len; i++)
      add_candidate (cure->fitted, lid_cure_fit (cure->check, sorts->pdata[i], n));
}

/* Takes @moves. */
static void
add_moved (LidCureWork *cure, GArray *moves)
{
  if (lid_cure_empties (cure->check, moves))
    g_array_unref (moves);
  else
    add_candidate (cure->moved, moves);
}

/* Whether sorting may be of use to some finding: else three more judgements are time lost. */
static gboolean
has_mix (const LidCheck *check)
{
  for (guint i = 0; i < check->findings->len; i++)
    {
      const LidFinding *finding = check->findings->pdata[i];

      if (finding->grade != LID_GRADE_NOTE && (finding->rule->cures & LID_CURE_SORT) != 0)
        return TRUE;
    }
  return FALSE;
}

/* All arrangements where they are few; or ways that often do. Made once. */
void
lid_cure_make_moved (LidCureWork *cure)
{
  g_autoptr (GPtrArray) moves = NULL;

  if (cure->moved != NULL)
    return;
  moves = lid_cure_arrangements (cure->check);
  cure->moved = g_ptr_array_new_with_free_func (lid_cure_candidate_free);
  cure->all = moves != NULL;
  if (!cure->all)
    {
      moves = lid_cure_nudges (cure->check);
      add_moved (cure, lid_cure_spread (cure->check, TRUE, LID_CURE_BY_LOAD));
      add_moved (cure, lid_cure_spread (cure->check, TRUE, LID_CURE_BY_ORDER));
      add_moved (cure, lid_cure_spread (cure->check, FALSE, LID_CURE_BY_LOAD));
      if (has_mix (cure->check))
        {
          add_moved (cure, lid_cure_spread (cure->check, TRUE, LID_CURE_SORTED));
          add_moved (cure, lid_cure_spread (cure->check, FALSE, LID_CURE_SORTED));
          add_moved (cure, lid_cure_spread (cure->check, FALSE, LID_CURE_SORTED_SOCKETS));
        }
    }
  for (guint i = 0; i < moves->len; i++)
    add_moved (cure, g_array_ref (moves->pdata[i]));
}

static void
add_settled (const LidCureWork *cure,
             const LidFinding *finding,
             GPtrArray *own,
             int socket,
             gboolean by_order)
{
  add_candidate (own,
                 lid_cure_settle (cure->check, finding->slots, finding->n_slots, socket, by_order));
}

/* Those it names elsewhere: spread over all processors, or all of them at one. */
static void
make_settled (const LidCureWork *cure, const LidFinding *finding, GPtrArray *own)
{
  for (int s = LID_NOWHERE; s < (int)cure->check->board->n_sockets; s++)
    {
      add_settled (cure, finding, own, s, FALSE);
      add_settled (cure, finding, own, s, TRUE);
    }
}

static void
make_exchanged (const LidCureWork *cure, const LidFinding *finding, GPtrArray *own)
{
  g_autoptr (GPtrArray) sorts = sorts_at_hand (cure->check);

  for (guint i = 0; i < sorts->len; i++)
    add_candidate (
        own, lid_cure_exchange (cure->check, finding->slots, finding->n_slots, sorts->pdata[i]));
}

/* What is in the machine is moved before the tray is touched. Candidates that are made for this
 * finding alone are kept in @own. */
LidCureCandidate *
lid_cure_find_inside (LidCureWork *cure, const LidFinding *finding, GPtrArray *own)
{
  guint32 cures = finding->rule->cures;
  LidCureCandidate *best = NULL;

  if (cures != 0)
    lid_cure_make_moved (cure);
  if (cures & LID_CURE_SETTLE)
    {
      make_settled (cure, finding, own);
      try_all (cure, finding, own, &best);
    }
  if ((cures & LID_CURE_SPREAD) || (cures != 0 && cure->all))
    try_all (cure, finding, cure->moved, &best);
  return best;
}

LidCureCandidate *
lid_cure_find_on_tray (LidCureWork *cure, const LidFinding *finding, GPtrArray *own)
{
  guint32 cures = finding->rule->cures;
  LidCureCandidate *best = NULL;

  if (cures & LID_CURE_EXCHANGE)
    {
      make_exchanged (cure, finding, own);
      try_all (cure, finding, own, &best);
    }
  if (best == NULL && (cures & LID_CURE_FIT))
    {
      if (cure->fitted == NULL)
        make_fitted (cure);
      try_all (cure, finding, cure->fitted, &best);
    }
  return best;
}
