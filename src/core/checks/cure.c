/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which moves are offered for a finding. What is best is decided here, in this order:
 *
 * 1. It clears the finding: of its rule and grade fewer are left, and they name fewer slots;
 * nothing stops that did not stop before; a memory mode that takes effect still does; no capacity
 * is lost. Unless it is a matter of starting, nothing else begins to lose, and reading all of it,
 * or its slowest part, is no slower (a memory mode that takes effect has its price, which is said).
 * 2. Moving what is in the machine comes before exchanging with the tray, and that before adding.
 * 3. Of several: the machine starts; most usable capacity; reading all of it fastest (where no rate
 *    is known: the largest even share, not known last); fewest findings left that stop or lose;
 * where all arrangements are tried, the most pairs of channels that hold the same; fewest moves;
 * the one made first.
 *
 * Where arrangements of what is in the machine times its slots are no more than 8191, each is tried
 * (cure-arrange.c): any machine of six slots, eight slots with two sorts of modules and free ones,
 * twelve with four modules alike. There the best of all is offered, whatever else the rule gives;
 * test-cures-all judges them a second time and holds each offer to it. No channel and no processor
 * is emptied for it (cure-empties.c).
 *
 * Larger machines have more arrangements than anybody waits for. There a rule's own moves stand
 * where they clear it, and tried are only: those it names to free slots (of any processor, of each
 * alone; where least lies, or by the order of fitting), all modules dealt out anew (inside each
 * processor, by load or by order, but not where a module is not seen; over all, by load; where a
 * rule of mixtures speaks, inside each processor and over all each class on channels of its own,
 * over all at processors of its own too), one module to the first free slot of another channel or
 * two that change places (where that makes no more than 96 to try), those it names for one sort of
 * the tray, one to eight of one sort of the tray added. Where one of these clears it, the best of
 * them is offered; test-cures-best writes ways and order a second time and holds each offer to
 * them.
 *
 * Where a setting is the cause (cure-setting.c), to change it is the remedy of all that goes with
 * it. Two findings that send one module to two places are given the moves of the one whose rule
 * speaks first, where those clear both. */
#include "checks/cure-private.h"

#include "checks/assessment-private.h"
#include "checks/remedy.h"

/* Whether the words of moves that failed are no advice. So are those that send a module elsewhere.
 * What a rule would leave out is none where the machine is then empty, which has no fault, or where
 * a first slot stays empty and another rule stops what is behind it; where the machine only does
 * not start for another reason it stays one. */
static gboolean
misleads (const LidCureWork *cure, const LidFinding *finding)
{
  LidCureCandidate leaving = { .moves = finding->remedy->moves };
  gboolean clears;

  if (!finding->remedy->leaving)
    return !lid_cure_only_takes_out (finding->remedy->moves);
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
  LidCureCandidate own;
  g_autoptr (GArray) least = NULL;
  gboolean keeps;

  if (lid_cure_only_takes_out (finding->remedy->moves))
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
  own = (LidCureCandidate){ .moves = finding->remedy->moves, .after = *after };
  keeps = lid_cure_clears (cure, finding, &own, FALSE);
  *after = own.after;
  if (keeps)
    lid_cure_say_price (cure, own.after, finding->remedy);
  if (keeps && lid_cure_only_takes_out (finding->remedy->moves))
    lid_cure_say_rest (cure, own.after, finding->remedy);
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
  LidCureCandidate given = { .moves = finding->remedy->moves, .after = after };
  LidCureCandidate *best = NULL;

  lid_cure_make_moved (cure);
  if (cure->all)
    best = lid_cure_find_inside (cure, finding, own);
  return best != NULL && lid_cure_is_better (cure, best, &given) ? best : NULL;
}

/* A note need not be acted upon: it gets no search. Moves that only leave slots empty are looked at
 * when nothing better is found: how few of them do takes many trials. */
static void
cure_one (LidCureWork *cure, LidFinding *finding)
{
  g_autoptr (GPtrArray) own = g_ptr_array_new_with_free_func (lid_cure_candidate_free);
  g_autoptr (LidAssessment) after = NULL;
  gboolean search = finding->grade != LID_GRADE_NOTE, keeps = FALSE;
  LidRemedy *remedy = finding->remedy;
  LidCureCandidate *best = NULL;

  if (remedy != NULL && remedy->by_setting)
    return;
  if (remedy != NULL && !lid_cure_only_takes_out (remedy->moves))
    keeps = keeps_promise (cure, finding, &after);
  if (search && keeps)
    best = find_better (cure, finding, after, own);
  else if (search)
    best = lid_cure_find_inside (cure, finding, own);
  if (search && !keeps && best == NULL)
    best = lid_cure_find_on_tray (cure, finding, own);
  if (best != NULL)
    {
      lid_remedy_free (finding->remedy);
      finding->remedy = lid_remedy_new_moves (cure->check, best->moves);
      lid_cure_say_price (cure, best->after, finding->remedy);
    }
  else if (!keeps && remedy != NULL && remedy->moves->len > 0
           && !(lid_cure_only_takes_out (remedy->moves) && keeps_promise (cure, finding, &after)))
    take_back (cure, finding);
}

/* What a running machine shows is doubted, not judged; moved about, it is only a plan. */
static void
prepare (LidCureWork *cure)
{
  cure->findings = cure->check->findings;
  cure->figures = cure->check->figures;
  cure->unusable = cure->check->unusable;
  if (!cure->check->evidence)
    return;
  cure->planned = lid_assessment_new_how (
      cure->question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NEVER, .only_planned = TRUE });
  cure->findings = cure->planned->findings;
  cure->figures = &cure->planned->figures;
  cure->unusable = cure->planned->unusable;
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
  lid_cure_allow_stops (&cure);
  lid_cure_by_setting (&cure);
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
