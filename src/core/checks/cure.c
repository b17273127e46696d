/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/cure-private.h"

#include "checks/assessment-private.h"
#include "checks/remedy.h"
#include "checks/rules.h"

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

/* Takes @moves; nothing is added for NULL. */
static void
add_candidate (GPtrArray *candidates, GArray *moves)
{
  LidCureCandidate *candidate;

  if (moves == NULL)
    return;
  candidate = g_new0 (LidCureCandidate, 1);
  candidate->moves = moves;
  g_ptr_array_add (candidates, candidate);
}

/* Whether two modules may stand in for each other. */
gboolean
lid_cure_same (const LidModule *a, const LidModule *b)
{
  return a == b || lid_module_same (a, b)
         || (memcmp (a->value, b->value, sizeof a->value) == 0
             && memcmp (a->basis, b->basis, sizeof a->basis) == 0 && a->persistent == b->persistent
             && g_strcmp0 (a->part, b->part) == 0);
}

static guint
count (const GPtrArray *findings, const LidRule *rule, LidGrade least)
{
  guint n = 0;

  for (guint i = 0; i < findings->len; i++)
    {
      const LidFinding *finding = findings->pdata[i];

      n += (rule == NULL || finding->rule == rule) && finding->grade >= least;
    }
  return n;
}

/* How many slots findings of a rule name: two of them can become one without anything being
 * better. */
static guint
count_slots (const GPtrArray *findings, const LidRule *rule, LidGrade least)
{
  guint n = 0;

  for (guint i = 0; i < findings->len; i++)
    {
      const LidFinding *finding = findings->pdata[i];

      n += finding->rule == rule && finding->grade >= least ? finding->n_slots : 0;
    }
  return n;
}

/* Nothing stops that did not stop before. That nothing is left to start with is no news where
 * nothing worked before. */
static gboolean
stops_nothing_new (const LidCureWork *cure, const LidAssessment *after)
{
  for (guint i = 0; i < after->findings->len; i++)
    {
      const LidFinding *finding = after->findings->pdata[i];

      if (finding->grade == LID_GRADE_STOPS
          && count (cure->findings, finding->rule, LID_GRADE_STOPS) == 0
          && !(finding->rule == &lid_rule_no_memory && cure->nothing_usable))
        return FALSE;
    }
  return TRUE;
}

static guint
count_loses (const GPtrArray *findings)
{
  return count (findings, NULL, LID_GRADE_LOSES) - count (findings, NULL, LID_GRADE_STOPS);
}

static void
judge (const LidCureWork *cure, LidCureCandidate *candidate)
{
  const LidRemedy remedy = { .moves = candidate->moves };
  g_autoptr (LidPopulation) population = NULL;

  if (candidate->after != NULL)
    return;
  population = lid_remedy_apply (&remedy, cure->check->population);
  candidate->after = lid_assessment_new_plain (
      &(LidQuestion){ cure->check->board, population, cure->question->as_found });
}

/* A memory mode that takes effect has its price, which is said; any other remedy that is searched
 * for must not make reading slower, nor the slowest part of it where all of it gains nothing. */
static gboolean
slows (const LidCureWork *cure, const LidFigures *after)
{
  int whole;

  if (after->mode.effect == LID_EFFECT_TAKEN && cure->figures->mode.effect != LID_EFFECT_TAKEN)
    return FALSE;
  if (!lid_ratio_is_known (after->whole_mbs) || !lid_ratio_is_known (cure->figures->whole_mbs))
    return FALSE;
  whole = lid_ratio_compare (after->whole_mbs, cure->figures->whole_mbs);
  return whole < 0
         || (whole == 0 && lid_ratio_compare (after->worst_mbs, cure->figures->worst_mbs) < 0);
}

/* Whether the moves clear the finding and stop nothing new; where @better, they also lose no
 * capacity, and nothing else where it is not a matter of starting at all. */
gboolean
lid_cure_clears (const LidCureWork *cure,
                 const LidFinding *finding,
                 LidCureCandidate *candidate,
                 gboolean better)
{
  guint left, before = count (cure->check->findings, finding->rule, finding->grade);
  guint loses = cure->loses - (cure->loses > 0 && finding->grade == LID_GRADE_LOSES);

  judge (cure, candidate);
  left = count (candidate->after->findings, finding->rule, finding->grade);
  if (left >= before || !stops_nothing_new (cure, candidate->after))
    return FALSE;
  if (left > 0 && finding->n_slots > 0
      && count_slots (candidate->after->findings, finding->rule, finding->grade)
             >= count_slots (cure->check->findings, finding->rule, finding->grade))
    return FALSE;
  if (!better)
    return TRUE;
  return (finding->grade == LID_GRADE_STOPS
          || (count_loses (candidate->after->findings) <= loses
              && !slows (cure, &candidate->after->figures)))
         && candidate->after->figures.capacity_mib >= cure->capacity_mib;
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

static void
make_moved (LidCureWork *cure)
{
  cure->moved = g_ptr_array_new_with_free_func (candidate_free);
  add_candidate (cure->moved, lid_cure_spread (cure->check, TRUE, FALSE));
  add_candidate (cure->moved, lid_cure_spread (cure->check, TRUE, TRUE));
  add_candidate (cure->moved, lid_cure_spread (cure->check, FALSE, FALSE));
}

/* Those it names elsewhere: spread over all processors, or all of them at one. */
static void
make_settled (const LidCureWork *cure, const LidFinding *finding, GPtrArray *own)
{
  const LidBoard *board = cure->check->board;

  for (int s = LID_NOWHERE; s < (int)board->n_sockets; s++)
    if (s == LID_NOWHERE || board->n_sockets > 1)
      for (guint by_order = 0; by_order < 2; by_order++)
        add_candidate (
            own, lid_cure_settle (cure->check, finding->slots, finding->n_slots, s, by_order == 1));
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
find_moves (LidCureWork *cure, const LidFinding *finding, GPtrArray *own)
{
  guint32 cures = finding->rule->cures;
  LidCureCandidate *best = NULL;

  if (cures & LID_CURE_SETTLE)
    {
      make_settled (cure, finding, own);
      try_all (cure, finding, own, &best);
    }
  if (cures & LID_CURE_SPREAD)
    {
      if (cure->moved == NULL)
        make_moved (cure);
      try_all (cure, finding, cure->moved, &best);
    }
  if (best == NULL && (cures & LID_CURE_EXCHANGE))
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

/* Whether the moves its rule gave do what they promise. Of those that only take out, no more are
 * kept than it takes. The price of them is said. */
static gboolean
keeps_promise (const LidCureWork *cure, LidFinding *finding)
{
  LidCureCandidate own = { NULL, NULL };
  g_autoptr (GArray) least = NULL;
  gboolean keeps;

  if (finding->remedy == NULL || finding->remedy->moves->len == 0)
    return FALSE;
  if (only_takes_out (finding->remedy))
    {
      least = lid_cure_least (cure, finding);
      if (least == NULL)
        return FALSE;
      if (least->len < finding->remedy->moves->len)
        {
          LidRemedy *fewer = lid_remedy_new_moves (cure->check, least);

          lid_remedy_free (finding->remedy);
          finding->remedy = fewer;
        }
    }
  own.moves = finding->remedy->moves;
  keeps = lid_cure_clears (cure, finding, &own, FALSE);
  if (keeps)
    lid_cure_say_price (cure, own.after, finding->remedy);
  lid_assessment_free (own.after);
  return keeps;
}

static void
cure_one (LidCureWork *cure, LidFinding *finding)
{
  g_autoptr (GPtrArray) own = g_ptr_array_new_with_free_func (candidate_free);
  LidCureCandidate *best = NULL;
  gboolean keeps;

  /* What is wrong is what the job says of a processor: no move mends that. */
  if (cure->check->belied != 0 && finding->rule == &lid_rule_absent_processor)
    return;
  if (finding->remedy != NULL && finding->remedy->by_setting)
    return;
  keeps = keeps_promise (cure, finding);
  /* A note need not be acted upon: it gets no search. */
  if (finding->grade != LID_GRADE_NOTE && (!keeps || only_takes_out (finding->remedy)))
    best = find_moves (cure, finding, own);
  if (best != NULL)
    {
      lid_remedy_free (finding->remedy);
      finding->remedy = lid_remedy_new_moves (cure->check, best->moves);
      lid_cure_say_price (cure, best->after, finding->remedy);
    }
  else if (!keeps && finding->remedy != NULL)
    lid_remedy_drop_moves (finding->remedy);
}

/* What a running machine shows is doubted, not judged; moved about, it is only a plan. */
static void
prepare (LidCureWork *cure)
{
  const LidFigures *figures = cure->check->figures;

  cure->findings = cure->check->findings;
  cure->figures = figures;
  if (cure->check->evidence)
    {
      cure->planned = lid_assessment_new_how (
          cure->question,
          (LidAssessmentHow){ .remedies = LID_REMEDIES_NEVER, .only_planned = TRUE });
      cure->findings = cure->planned->findings;
      cure->figures = figures = &cure->planned->figures;
    }
  cure->nothing_usable = !figures->starts || figures->capacity_mib == 0;
  cure->capacity_mib = figures->starts ? figures->capacity_mib : 0;
  cure->loses = count_loses (cure->findings);
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
  gboolean any = FALSE;

  for (guint i = 0; i < check->findings->len; i++)
    {
      const LidFinding *finding = check->findings->pdata[i];

      any = any || (finding->rule->cures != 0 && finding->grade != LID_GRADE_NOTE)
            || (finding->remedy != NULL && finding->remedy->moves->len > 0);
    }
  if (!any)
    return;
  prepare (&cure);
  for (guint i = 0; i < check->findings->len; i++)
    {
      cure_one (&cure, check->findings->pdata[i]);
      lid_cure_agree (&cure, i);
    }
  g_clear_pointer (&cure.planned, lid_assessment_free);
  g_clear_pointer (&cure.moved, g_ptr_array_unref);
  g_clear_pointer (&cure.fitted, g_ptr_array_unref);
}
