/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether moves clear a finding, and at what price: they are carried out on a copy and judged. */
#include "checks/cure-private.h"

#include "checks/remedy.h"
#include "checks/rules.h"

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
          && !(finding->rule == &lid_rule_no_memory && cure->figures->capacity_mib == 0))
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
  if (!lid_ratio_is_known (after->whole_mbs))
    return FALSE;
  whole = lid_ratio_compare (after->whole_mbs, cure->figures->whole_mbs);
  return whole < 0
         || (whole == 0 && lid_ratio_compare (after->worst_mbs, cure->figures->worst_mbs) < 0);
}

/* Nobody is sent to where the memory mode that protects the machine now is refused. */
static gboolean
unprotects (const LidCureWork *cure, const LidFigures *after)
{
  return cure->figures->mode.effect == LID_EFFECT_TAKEN && after->mode.effect != LID_EFFECT_TAKEN;
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
  guint loses = count_loses (cure->check->findings) - (finding->grade == LID_GRADE_LOSES);

  judge (cure, candidate);
  left = count (candidate->after->findings, finding->rule, finding->grade);
  if (left >= before || !stops_nothing_new (cure, candidate->after)
      || unprotects (cure, &candidate->after->figures))
    return FALSE;
  if (finding->n_slots > 0
      && count_slots (candidate->after->findings, finding->rule, finding->grade)
             >= count_slots (cure->check->findings, finding->rule, finding->grade))
    return FALSE;
  if (!better)
    return TRUE;
  return (finding->grade == LID_GRADE_STOPS
          || (count_loses (candidate->after->findings) <= loses
              && !slows (cure, &candidate->after->figures)))
         && candidate->after->figures.capacity_mib >= cure->figures->capacity_mib;
}
