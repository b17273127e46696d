/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/assessment.h"

#include "checks/assessment-private.h"
#include "checks/balance.h"
#include "checks/cure.h"
#include "checks/remedies.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "figures/room.h"
#include "figures/running-rate.h"

/* Worst first; findings of one grade stay in the order of the table of rules. By counting: there
 * are four grades, and a stable sort of pointers is what is wanted. */
static void
sort_findings (GPtrArray *findings)
{
  g_autofree gpointer *sorted = g_new (gpointer, findings->len + 1);
  guint n = 0;

  for (int grade = LID_GRADE_STOPS; grade >= LID_GRADE_NOTE; grade--)
    for (guint i = 0; i < findings->len; i++)
      if (((const LidFinding *)findings->pdata[i])->grade == (LidGrade)grade)
        sorted[n++] = findings->pdata[i];
  for (guint i = 0; i < n; i++)
    findings->pdata[i] = sorted[i];
}

/* The population without what does not go into its slot: it has no contact, so that it loads no
 * channel, holds no rate down and is mixed with nothing (product.md 6, settled reading 2: that
 * slot), and no more is asked about it. NULL: all of it goes in. @all: the population; what was
 * found running where it is that. */
static LidPopulation *
leave_out (LidCheck *check, const LidPopulation *all)
{
  LidPopulation *left = NULL;

  for (guint i = 0; i < check->board->n_slots; i++)
    if (check->unusable[i])
      {
        left = left != NULL ? left : lid_population_copy (all);
        lid_population_take (left, i);
        for (guint fact = 0; fact < LID_N_FACTS; fact++)
          lid_slot_set_drop (&check->asked[fact], i);
      }
  return left;
}

/* A rule that saw a slot as empty may send a module there: what does not go in comes out first, and
 * that is another remedy. Its words stay true. */
static void
drop_moves_onto (const LidCheck *check, const LidPopulation *all)
{
  for (guint i = 0; i < check->findings->len; i++)
    {
      LidRemedy *remedy = ((LidFinding *)check->findings->pdata[i])->remedy;

      for (guint k = 0; remedy != NULL && k < remedy->moves->len; k++)
        {
          int to = g_array_index (remedy->moves, LidMove, k).to;

          if (to != LID_NOWHERE && all->slots[to].module != NULL
              && check->population->slots[to].module == NULL)
            lid_remedy_drop_moves (remedy);
        }
    }
}

/* Rules see the fitted population; figures cover its usable part, in one pass (product.md 6). The
 * rate comes first because it is a matter of wires, which know no findings (settled reading 1).
 * @survey: of all modules, those that do not go in too. */
static void
judge (LidCheck *check, const LidSurvey *survey, LidAssessment *out, const LidRule *without)
{
  LidBalance balance;

  lid_running_rate_compute (check->survey, check->as_found, &out->figures);
  check->figures = &out->figures;
  lid_rules_run (check, LID_PHASE_FITTED, without);
  if (check->refused)
    return;
  lid_balance_init (&balance, check);
  check->balance = &balance;
  lid_rules_run (check, LID_PHASE_USABLE, without);
  if (check->stopped || check->refused)
    lid_figures_stop (survey, &out->figures);
  else
    lid_figures_compute (survey, check->unusable, &out->figures);
  lid_rules_run (check, LID_PHASE_FIGURES, without);
  lid_balance_clear (&balance);
}

static void
promise_remedies (LidAssessment *out, const LidQuestion *question, const GPtrArray *at_hand)
{
  if (out->findings->len == 0)
    return;
  out->remedies = lid_remedies_new (question, at_hand, out->findings);
  for (guint i = 0; i < out->findings->len; i++)
    ((LidFinding *)out->findings->pdata[i])->remedies = out->remedies;
}

/* Evidence beats rules (product.md 3): where the running machine shows memory of a processor that
 * is told as absent, the memory counts and the processor is what is doubted
 * (rule-absent-processor.c). Returns NULL where there is nothing of the kind. */
static LidPopulation *
believe (const LidQuestion *question, gboolean only_planned, guint32 *belied)
{
  const LidPopulation *told = question->population;
  LidPopulation *believed = NULL;

  *belied = 0;
  if (only_planned || !lid_population_is_evidence (told, question->as_found))
    return NULL;
  for (guint i = 0; i < told->n_slots; i++)
    {
      int socket = question->board->slots[i].socket;

      if (socket == LID_NOWHERE || told->processors[socket].fitted
          || !lid_population_shows (told, i))
        continue;
      *belied |= 1u << socket;
      believed = believed != NULL ? believed : lid_population_copy (told);
      believed->processors[socket].fitted = TRUE;
    }
  return believed;
}

/* What stays stopped whatever is added is no room to grow; nor has a machine any that such a rule
 * keeps from starting (product.md 6, settled readings 4 and 10). */
static LidRoom
compute_room (const LidCheck *check)
{
  g_autofree guint8 *stopped = g_new0 (guint8, check->board->n_slots);
  gboolean starts = TRUE;
  LidRoom room;

  for (guint i = 0; i < check->findings->len; i++)
    {
      const LidFinding *finding = check->findings->pdata[i];
      LidRoomStop stop = finding->rule->lasting ? LID_ROOM_NEVER : LID_ROOM_NOT_YET;

      if (finding->stops == LID_STOPS_MACHINE && finding->rule->lasting)
        starts = FALSE;
      for (guint k = 0; finding->stops == LID_STOPS_SLOTS && k < finding->n_slots; k++)
        stopped[finding->slots[k]] = (guint8)MAX (stopped[finding->slots[k]], stop);
    }
  room = lid_room_compute (check->survey, stopped);
  if (!starts)
    room.listed_mib = room.proven_mib = 0;
  return room;
}

/**
 * lid_assessment_new_how:
 * @question: what to judge
 * @how: what to leave out
 *
 * Returns: (transfer full) (nullable): as lid_assessment_new(); where only some rules may stop
 * something, without the room to grow, and NULL as soon as another one does
 */
LidAssessment *
lid_assessment_new_how (const LidQuestion *question, LidAssessmentHow how)
{
  LidAssessment *out = g_new0 (LidAssessment, 1);
  guint32 belied;
  g_autoptr (LidPopulation) believed = believe (question, how.only_planned, &belied);
  const LidQuestion seen = { question->board, believed != NULL ? believed : question->population,
                             believed != NULL ? believed : question->as_found };
  g_autoptr (LidSurvey) survey = lid_survey_new (seen.board, seen.population), of_wired = NULL;
  g_autoptr (LidPopulation) wired = NULL;
  gboolean evident = lid_population_is_evidence (seen.population, seen.as_found);
  LidCheck check;

  lid_figures_init (&out->figures, question->board);
  lid_check_init (&check, &seen, survey);
  check.belied = belied;
  check.plain = how.remedies != LID_REMEDIES_NOW;
  check.at_hand = how.at_hand;
  check.may_stop = how.may_stop;
  check.evidence = check.evidence && !how.only_planned;
  lid_rules_run (&check, LID_PHASE_GOES_IN, how.without);
  wired = leave_out (&check, evident ? seen.as_found : seen.population);
  if (wired != NULL)
    {
      of_wired = lid_survey_new (seen.board, wired);
      lid_check_see (&check, wired, of_wired);
      check.as_found = evident ? wired : seen.as_found;
    }
  judge (&check, survey, out, how.without);
  if (how.may_stop == NULL)
    out->room = compute_room (&check);
  if (wired != NULL)
    {
      drop_moves_onto (&check, seen.population);
      lid_check_see (&check, seen.population, survey);
      check.as_found = seen.as_found;
    }
  if (how.remedies == LID_REMEDIES_NOW && how.without == NULL)
    lid_cure_all (question, &check);
  out->findings = g_steal_pointer (&check.findings);
  out->unusable = g_steal_pointer (&check.unusable);
  lid_check_clear (&check);
  sort_findings (out->findings);
  if (how.remedies == LID_REMEDIES_LATER)
    promise_remedies (out, question, how.at_hand);
  if (check.refused)
    g_clear_pointer (&out, lid_assessment_free);
  return out;
}

/**
 * lid_assessment_new:
 * @question: a population of a board, and what was found where there is something
 *
 * Never fails: a population that cannot work is a finding, not an error.
 *
 * Returns: (transfer full): findings, what is usable, figures, room to grow
 */
LidAssessment *
lid_assessment_new (const LidQuestion *question)
{
  g_return_val_if_fail (question->board != NULL && question->population != NULL, NULL);
  return lid_assessment_new_how (question, (LidAssessmentHow){ .remedies = LID_REMEDIES_LATER });
}

/**
 * lid_assessment_new_at_hand:
 * @question: as lid_assessment_new()
 * @modules: (nullable) (element-type LidModule): what lies on the tray
 *
 * Returns: (transfer full): an assessment whose remedies may also fit what is on the tray
 */
LidAssessment *
lid_assessment_new_at_hand (const LidQuestion *question, const GPtrArray *modules)
{
  g_return_val_if_fail (question->board != NULL && question->population != NULL, NULL);
  return lid_assessment_new_how (question, (LidAssessmentHow){ .at_hand = modules });
}

/**
 * lid_assessment_new_plain:
 * @question: as lid_assessment_new()
 *
 * For those who judge thousands of populations: the same findings, figures and room, but no finding
 * has a remedy.
 *
 * Returns: (transfer full): an assessment without remedies
 */
LidAssessment *
lid_assessment_new_plain (const LidQuestion *question)
{
  g_return_val_if_fail (question->board != NULL && question->population != NULL, NULL);
  return lid_assessment_new_how (question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NEVER });
}

/**
 * lid_assessment_new_without:
 * @question: what to judge
 * @without: (nullable): a rule to leave out; only tests do
 *
 * Returns: (transfer full): as lid_assessment_new()
 */
LidAssessment *
lid_assessment_new_without (const LidQuestion *question, const LidRule *without)
{
  return lid_assessment_new_how (
      question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NOW, .without = without });
}

/**
 * lid_assessment_free:
 * @assessment: (nullable): what lid_assessment_new() gave
 */
void
lid_assessment_free (LidAssessment *assessment)
{
  if (assessment == NULL)
    return;
  lid_remedies_free (assessment->remedies);
  g_ptr_array_unref (assessment->findings);
  g_free (assessment->unusable);
  lid_figures_clear (&assessment->figures);
  g_free (assessment);
}

/**
 * lid_assessment_worst:
 *
 * Returns: the worst grade found; LID_GRADE_NOTE where there is nothing
 */
LidGrade
lid_assessment_worst (const LidAssessment *assessment)
{
  return assessment->findings->len > 0 ? ((const LidFinding *)assessment->findings->pdata[0])->grade
                                       : LID_GRADE_NOTE;
}
