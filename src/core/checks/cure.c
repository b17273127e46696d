/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/cure.h"

#include "checks/assessment-private.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <string.h>

#define MOST_FITTED 8u /* more from the tray in one go is a plan, not a remedy */

/* Moves to try, and what the checker says after them. */
typedef struct
{
  GArray *moves;
  LidAssessment *after; /* NULL: not judged yet */
} Candidate;

typedef struct
{
  const LidQuestion *question;
  LidCheck *check;
  LidAssessment *planned;    /* what a running machine would be told if it were only planned */
  const GPtrArray *findings; /* of that, or the check's own */
  gboolean nothing_usable;
  gint64 capacity_mib;
  guint loses;
  GPtrArray *moved;  /* Candidate: ways to move what is in the machine; NULL: not made yet */
  GPtrArray *fitted; /* Candidate: what the tray can add; NULL: not made yet */
} Cure;

static void
candidate_free (gpointer data)
{
  Candidate *candidate = data;

  g_array_unref (candidate->moves);
  lid_assessment_free (candidate->after);
  g_free (candidate);
}

/* Takes @moves; nothing is added for NULL. */
static void
add_candidate (GPtrArray *candidates, GArray *moves)
{
  Candidate *candidate;

  if (moves == NULL)
    return;
  candidate = g_new0 (Candidate, 1);
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

/* Nothing stops that did not stop before. That nothing is left to start with is no news where
 * nothing worked before. */
static gboolean
stops_nothing_new (const Cure *cure, const LidAssessment *after)
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
judge (const Cure *cure, Candidate *candidate)
{
  const LidRemedy remedy = { NULL, candidate->moves };
  g_autoptr (LidPopulation) population = NULL;

  if (candidate->after != NULL)
    return;
  population = lid_remedy_apply (&remedy, cure->check->population);
  candidate->after = lid_assessment_new_plain (
      &(LidQuestion){ cure->check->board, population, cure->question->as_found });
}

/* Whether the moves clear the finding and stop nothing new; where @better, they also lose no
 * capacity, and nothing else where it is not a matter of starting at all. */
static gboolean
clears (const Cure *cure, const LidFinding *finding, Candidate *candidate, gboolean better)
{
  guint before = count (cure->check->findings, finding->rule, finding->grade);
  guint loses = cure->loses - (cure->loses > 0 && finding->grade == LID_GRADE_LOSES);

  judge (cure, candidate);
  if (count (candidate->after->findings, finding->rule, finding->grade) >= before
      || !stops_nothing_new (cure, candidate->after))
    return FALSE;
  if (!better)
    return TRUE;
  return (finding->grade == LID_GRADE_STOPS || count_loses (candidate->after->findings) <= loses)
         && candidate->after->figures.capacity_mib >= cure->capacity_mib;
}

/* Keeps in @best the candidate with the fewest moves that clears it. */
static void
try_all (const Cure *cure, const LidFinding *finding, GPtrArray *candidates, GArray **best)
{
  for (guint i = 0; i < candidates->len; i++)
    {
      Candidate *candidate = candidates->pdata[i];

      if ((*best != NULL && candidate->moves->len >= (*best)->len)
          || !clears (cure, finding, candidate, TRUE))
        continue;
      g_clear_pointer (best, g_array_unref);
      *best = g_array_ref (candidate->moves);
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
make_fitted (Cure *cure)
{
  g_autoptr (GPtrArray) sorts = sorts_at_hand (cure->check);

  cure->fitted = g_ptr_array_new_with_free_func (candidate_free);
  for (guint n = 1; n <= MOST_FITTED; n++)
    for (guint i = 0; i < sorts->len; i++)
      add_candidate (cure->fitted, lid_cure_fit (cure->check, sorts->pdata[i], n));
}

static void
make_moved (Cure *cure)
{
  cure->moved = g_ptr_array_new_with_free_func (candidate_free);
  add_candidate (cure->moved, lid_cure_spread (cure->check, TRUE, FALSE));
  add_candidate (cure->moved, lid_cure_spread (cure->check, TRUE, TRUE));
  add_candidate (cure->moved, lid_cure_spread (cure->check, FALSE, FALSE));
}

/* Those it names elsewhere, or others from the tray in their place. */
static void
try_named (const Cure *cure, const LidFinding *finding, gboolean exchange, GArray **best)
{
  g_autoptr (GPtrArray) own = g_ptr_array_new_with_free_func (candidate_free);
  g_autoptr (GPtrArray) sorts = sorts_at_hand (cure->check);

  if (!exchange)
    add_candidate (own, lid_cure_settle (cure->check, finding->slots, finding->n_slots));
  for (guint i = 0; exchange && i < sorts->len; i++)
    add_candidate (
        own, lid_cure_exchange (cure->check, finding->slots, finding->n_slots, sorts->pdata[i]));
  try_all (cure, finding, own, best);
}

/* What is in the machine is moved before the tray is touched. */
static GArray *
find_moves (Cure *cure, const LidFinding *finding)
{
  guint32 cures = finding->rule->cures;
  GArray *best = NULL;

  if (cures & LID_CURE_SETTLE)
    try_named (cure, finding, FALSE, &best);
  if (cures & LID_CURE_SPREAD)
    {
      if (cure->moved == NULL)
        make_moved (cure);
      try_all (cure, finding, cure->moved, &best);
    }
  if (best == NULL && (cures & LID_CURE_EXCHANGE))
    try_named (cure, finding, TRUE, &best);
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

/* Whether the moves its rule gave do what they promise. */
static gboolean
keeps_promise (const Cure *cure, const LidFinding *finding)
{
  Candidate own = { NULL, NULL };
  gboolean keeps;

  if (finding->remedy == NULL || finding->remedy->moves->len == 0)
    return FALSE;
  own.moves = finding->remedy->moves;
  keeps = clears (cure, finding, &own, FALSE);
  lid_assessment_free (own.after);
  return keeps;
}

static void
cure_one (Cure *cure, LidFinding *finding)
{
  gboolean keeps = keeps_promise (cure, finding);
  GArray *moves = NULL;

  /* A note need not be acted upon: it gets no search. */
  if (finding->grade != LID_GRADE_NOTE && (!keeps || only_takes_out (finding->remedy)))
    moves = find_moves (cure, finding);
  if (moves != NULL)
    {
      lid_remedy_free (finding->remedy);
      finding->remedy = lid_remedy_new_moves (cure->check, moves);
      g_array_unref (moves);
    }
  else if (!keeps && finding->remedy != NULL)
    lid_remedy_drop_moves (finding->remedy);
}

/* What a running machine shows is doubted, not judged; moved about, it is only a plan. */
static void
prepare (Cure *cure)
{
  const LidFigures *figures = cure->check->figures;

  cure->findings = cure->check->findings;
  if (cure->check->evidence)
    {
      cure->planned = lid_assessment_new_how (
          cure->question,
          (LidAssessmentHow){ .remedies = LID_REMEDIES_NEVER, .only_planned = TRUE });
      cure->findings = cure->planned->findings;
      figures = &cure->planned->figures;
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
  Cure cure = { .question = question, .check = check };
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
    cure_one (&cure, check->findings->pdata[i]);
  g_clear_pointer (&cure.planned, lid_assessment_free);
  g_clear_pointer (&cure.moved, g_ptr_array_unref);
  g_clear_pointer (&cure.fitted, g_ptr_array_unref);
}
