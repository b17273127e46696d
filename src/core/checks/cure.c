/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which moves are offered for a finding. What is best is decided here, in this order:
 *
 * 1. It clears the finding: of its rule and grade fewer are left, and they name fewer slots;
 * nothing stops that did not stop before; a memory mode that takes effect still does; no capacity
 * is lost. Unless it is a matter of starting, nothing else begins to lose, and reading all of it,
 * or its slowest part, is no slower (a memory mode that takes effect has its price, which is said).
 * 2. Moving what is in the machine comes before exchanging with the tray, and that before adding.
 * 3. Of several: the machine starts; most usable capacity; reading all of it fastest (where no rate
 *    is known: the largest even share, not known last); fewest moves; the one made first.
 *
 * Where arrangements of what is in the machine times its slots are no more than 8192, each is tried
 * (cure-arrange.c): any machine of six slots, eight slots with two sorts of modules and free ones,
 * twelve with four modules alike. There the best of all is offered, whatever else the rule gives;
 * test-cures-all judges them a second time and holds each offer to it.
 *
 * Larger machines have more arrangements than anybody waits for. There a rule's own moves stand
 * where they clear it, and tried are only: those it names to free slots (of any processor, of each
 * alone; where least lies, or by the order of fitting), all modules dealt out anew (inside each
 * processor, by load or by order, but not where a module is not seen; over all, by load), one
 * module to the first free slot of another channel or two that change places (where that makes no
 * more than 96 to try), those it names for one sort of the tray, one to eight of one sort of the
 * tray added. Where one of these clears it, the best of them is offered; test-cures-best writes
 * ways and order a second time and holds each offer to them.
 *
 * Two findings that send one module to two places are given the moves of the one whose rule speaks
 * first, where those clear both. */
#include "checks/cure-private.h"

#include "checks/assessment-private.h"
#include "checks/remedy.h"

#include <string.h>

#define MOST_FITTED 8u /* more from the tray in one go is a plan, not a remedy */

static void
candidate_free (gpointer data)
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
          && (*best == NULL || lid_cure_is_better (candidate, *best)))
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

  cure->fitted = g_ptr_array_new_with_free_func (candidate_free);
  for (guint n = 1; n <= MOST_FITTED; n++)
    for (guint i = 0; i < sorts->len; i++)
      add_candidate (cure->fitted, lid_cure_fit (cure->check, sorts->pdata[i], n));
}

/* All arrangements where they are few; or ways that often do. */
static void
make_moved (LidCureWork *cure)
{
  g_autoptr (GPtrArray) moves = lid_cure_arrangements (cure->check);

  cure->moved = g_ptr_array_new_with_free_func (candidate_free);
  cure->all = moves != NULL;
  if (!cure->all)
    {
      moves = lid_cure_nudges (cure->check);
      add_candidate (cure->moved, lid_cure_spread (cure->check, TRUE, FALSE));
      add_candidate (cure->moved, lid_cure_spread (cure->check, TRUE, TRUE));
      add_candidate (cure->moved, lid_cure_spread (cure->check, FALSE, FALSE));
    }
  for (guint i = 0; i < moves->len; i++)
    add_candidate (cure->moved, g_array_ref (moves->pdata[i]));
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
static LidCureCandidate *
find_inside (LidCureWork *cure, const LidFinding *finding, GPtrArray *own)
{
  guint32 cures = finding->rule->cures;
  LidCureCandidate *best = NULL;

  if (cures & LID_CURE_SETTLE)
    {
      make_settled (cure, finding, own);
      try_all (cure, finding, own, &best);
    }
  if (cures != 0 && cure->moved == NULL)
    make_moved (cure);
  if ((cures & LID_CURE_SPREAD) || (cures != 0 && cure->all))
    try_all (cure, finding, cure->moved, &best);
  return best;
}

static LidCureCandidate *
find_on_tray (LidCureWork *cure, const LidFinding *finding, GPtrArray *own)
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

static gboolean
only_takes_out (const LidRemedy *remedy)
{
  for (guint i = 0; i < remedy->moves->len; i++)
    if (g_array_index (remedy->moves, LidMove, i).to != LID_NOWHERE)
      return FALSE;
  return TRUE;
}

/* Whether leaving out what the rule names is no advice: an empty machine has no fault, and where a
 * first slot stays empty another rule stops what is behind it. Where the machine only does not
 * start for another reason it stays one. */
static gboolean
misleads (const LidCureWork *cure, const LidFinding *finding)
{
  LidCureCandidate leaving = { finding->remedy->moves, NULL };
  gboolean clears;

  if (!finding->remedy->leaving)
    return FALSE;
  if (leaving.moves->len >= cure->check->n_live)
    return TRUE;
  clears = lid_cure_clears (cure, finding, &leaving, FALSE);
  lid_assessment_free (leaving.after);
  return !clears;
}

/* Whether the moves that its rule gave with a remedy do what they promise. Of those that only take
 * out, no more are kept than it takes. The price of them is said.
 * @after: what the checker says then; whoever calls it frees that */
static gboolean
keeps_promise (const LidCureWork *cure, LidFinding *finding, LidAssessment **after)
{
  LidCureCandidate own = { NULL, NULL };
  g_autoptr (GArray) least = NULL;
  gboolean keeps;

  if (only_takes_out (finding->remedy))
    {
      least = lid_cure_least (cure, finding, after);
      if (least == NULL)
        return FALSE;
      if (least->len < finding->remedy->moves->len)
        {
          LidRemedy *fewer = lid_remedy_new_moves (cure->check, least);

          lid_remedy_free (finding->remedy);
          finding->remedy = fewer;
        }
    }
  own = (LidCureCandidate){ finding->remedy->moves, *after };
  keeps = lid_cure_clears (cure, finding, &own, FALSE);
  *after = own.after;
  if (keeps)
    lid_cure_say_price (cure, own.after, finding->remedy);
  return keeps;
}

/* Moves that failed go, and with them words that would mislead. */
static void
take_back (const LidCureWork *cure, LidFinding *finding)
{
  if (misleads (cure, finding))
    lid_remedy_reword (finding->remedy, finding->rule->clears);
  lid_remedy_drop_moves (finding->remedy);
}

/* What the rule gives itself stands where it clears it, unless all arrangements are looked at and
 * one is better. */
static LidCureCandidate *
find_better (LidCureWork *cure, const LidFinding *finding, LidAssessment *after, GPtrArray *own)
{
  LidCureCandidate given = { finding->remedy->moves, after };
  LidCureCandidate *best = NULL;

  if (cure->moved == NULL)
    make_moved (cure);
  if (cure->all)
    best = find_inside (cure, finding, own);
  return best != NULL && lid_cure_is_better (best, &given) ? best : NULL;
}

/* A note need not be acted upon: it gets no search. Moves that only leave slots empty are looked at
 * when nothing better is found: how few of them do takes many trials. */
static void
cure_one (LidCureWork *cure, LidFinding *finding)
{
  g_autoptr (GPtrArray) own = g_ptr_array_new_with_free_func (candidate_free);
  g_autoptr (LidAssessment) after = NULL;
  gboolean search = finding->grade != LID_GRADE_NOTE, keeps = FALSE;
  LidRemedy *remedy = finding->remedy;
  LidCureCandidate *best = NULL;

  if (remedy != NULL && remedy->by_setting)
    return;
  if (remedy != NULL && !only_takes_out (remedy))
    keeps = keeps_promise (cure, finding, &after);
  if (search && keeps)
    best = find_better (cure, finding, after, own);
  else if (search)
    best = find_inside (cure, finding, own);
  if (search && !keeps && best == NULL)
    best = find_on_tray (cure, finding, own);
  if (best != NULL)
    {
      lid_remedy_free (finding->remedy);
      finding->remedy = lid_remedy_new_moves (cure->check, best->moves);
      lid_cure_say_price (cure, best->after, finding->remedy);
    }
  else if (!keeps && remedy != NULL && remedy->moves->len > 0
           && !(only_takes_out (remedy) && keeps_promise (cure, finding, &after)))
    take_back (cure, finding);
}

/* What a running machine shows is doubted, not judged; moved about, it is only a plan. */
static void
prepare (LidCureWork *cure)
{
  cure->findings = cure->check->findings;
  cure->figures = cure->check->figures;
  if (!cure->check->evidence)
    return;
  cure->planned = lid_assessment_new_how (
      cure->question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NEVER, .only_planned = TRUE });
  cure->findings = cure->planned->findings;
  cure->figures = &cure->planned->figures;
}

/* What the job says of a processor is doubted. A plan made from it would lack the processor, and
 * stop what was moved there: that has to be said right before anything is moved. */
static void
promise_nothing (LidFinding *finding)
{
  if (finding->remedy != NULL)
    lid_remedy_drop_moves (finding->remedy);
}

/**
 * lid_cure_all:
 * @question: what was asked
 * @check: after all rules have spoken
 *
 * Looks for moves where a rule gave none, and tries those that were given.
 */
void
lid_cure_all (const LidQuestion *question, LidCheck *check)
{
  LidCureWork cure = { .question = question, .check = check };

  prepare (&cure);
  for (guint i = 0; i < check->findings->len; i++)
    if (check->belied == 0)
      {
        cure_one (&cure, check->findings->pdata[i]);
        lid_cure_agree (&cure, i);
      }
    else
      promise_nothing (check->findings->pdata[i]);
  g_clear_pointer (&cure.planned, lid_assessment_free);
  g_clear_pointer (&cure.moved, g_ptr_array_unref);
  g_clear_pointer (&cure.fitted, g_ptr_array_unref);
}
