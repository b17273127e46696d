/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A setting that is the cause of several findings is changed once, and nobody moves a module for
 * what it does. */
#include "checks/cure-private.h"

#include "checks/assessment-private.h"
#include "checks/remedy.h"

static const LidFinding *
find_setting (const LidCheck *check)
{
  for (guint i = 0; i < check->findings->len; i++)
    {
      const LidFinding *finding = check->findings->pdata[i];

      if (finding->remedy != NULL && finding->remedy->by_setting)
        return finding;
    }
  return NULL;
}

/* What the checker says with the memory voltage on automatic; NULL: something stops then that does
 * not stop now. */
static LidAssessment *
judge_automatic (const LidCureWork *cure)
{
  g_autoptr (LidPopulation) population = lid_population_copy (cure->check->population);

  population->setup_mv = 0;
  return lid_assessment_new_how (
      &(LidQuestion){ cure->check->board, population, cure->question->as_found },
      (LidAssessmentHow){ .remedies = LID_REMEDIES_NEVER, .may_stop = cure->may_stop });
}

/**
 * lid_cure_by_setting:
 * @cure: at work; remedies are those the rules gave
 *
 * Where a finding is cleared by changing a setting (rule-missing-rate-row.c: the memory voltage),
 * that is also the remedy of each other finding that goes with it.
 */
void
lid_cure_by_setting (const LidCureWork *cure)
{
  const LidFinding *cause = find_setting (cure->check);
  g_autoptr (GArray) none = NULL;
  LidCureCandidate candidate = { 0 };

  if (cause == NULL)
    return;
  candidate.moves = none = g_array_new (FALSE, FALSE, sizeof (LidMove));
  candidate.after = judge_automatic (cure);
  candidate.refused = candidate.after == NULL;
  for (guint i = 0; i < cure->check->findings->len; i++)
    {
      LidFinding *finding = cure->check->findings->pdata[i];

      if (finding == cause || !lid_cure_clears (cure, finding, &candidate, FALSE))
        continue;
      lid_remedy_free (finding->remedy);
      finding->remedy = lid_remedy_new_setting (cause->remedy->text);
    }
  lid_assessment_free (candidate.after);
}
