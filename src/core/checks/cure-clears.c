/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether moves clear a finding, and at what price: they are carried out on a copy and judged. */
#include "checks/cure-private.h"

#include "checks/assessment-private.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <string.h>

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

/* Nothing may stop that does not stop now. That nothing is left to start with is no news where
 * nothing works now. */
void
lid_cure_allow_stops (LidCureWork *cure)
{
  for (guint i = 0; lid_rules[i] != NULL; i++)
    if (count (cure->findings, lid_rules[i], LID_GRADE_STOPS) > 0
        || (lid_rules[i] == &lid_rule_no_memory && cure->figures->capacity_mib == 0))
      cure->may_stop[i / 64] |= G_GUINT64_CONSTANT (1) << i % 64;
}

/* How many findings say that something stops or loses. */
guint
lid_cure_count_faults (const LidAssessment *assessment)
{
  return count (assessment->findings, NULL, LID_GRADE_LOSES);
}

static guint
count_loses (const GPtrArray *findings)
{
  return count (findings, NULL, LID_GRADE_LOSES) - count (findings, NULL, LID_GRADE_STOPS);
}

/* Once. Returns whether nothing stops that does not stop now: if something does, no more is known
 * of it. */
static gboolean
judge (const LidCureWork *cure, LidCureCandidate *candidate)
{
  const LidRemedy remedy = { .moves = candidate->moves };
  g_autoptr (LidPopulation) population = NULL;

  if (candidate->after == NULL && !candidate->refused)
    {
      population = lid_remedy_apply (&remedy, cure->check->population);
      candidate->after = lid_assessment_new_how (
          &(LidQuestion){ cure->check->board, population, cure->question->as_found },
          (LidAssessmentHow){ .remedies = LID_REMEDIES_NEVER, .may_stop = cure->may_stop });
      candidate->refused = candidate->after == NULL;
    }
  return !candidate->refused;
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

/* Nobody is sent to where the memory mode that protects the machine now is refused, nor to where
 * one demand of it is met and another is not: that one would send the same modules elsewhere. */
static gboolean
unprotects (const LidCureWork *cure, const LidFinding *finding, const LidFigures *after)
{
  return (cure->figures->mode.effect == LID_EFFECT_TAKEN && after->mode.effect != LID_EFFECT_TAKEN)
         || (finding->rule->refuses_mode && after->mode.effect == LID_EFFECT_REFUSED);
}

/* The slots whose modules do not go in. */
static LidSlotSet
misfits (const GPtrArray *findings)
{
  LidSlotSet slots = { { 0 } };

  for (guint i = 0; i < findings->len; i++)
    {
      const LidFinding *finding = findings->pdata[i];

      for (guint k = 0; finding->rule->phase == LID_PHASE_GOES_IN && k < finding->n_slots; k++)
        lid_slot_set_add (&slots, finding->slots[k]);
    }
  return slots;
}

/* Nobody is sent to put a module where it does not go in, though it does not go in where it is. */
static gboolean
sends_astray (const LidCureWork *cure, const GPtrArray *after)
{
  LidSlotSet before = misfits (cure->findings), then = misfits (after);

  LID_SLOT_SET_EACH (&then, slot)
    if (!lid_slot_set_has (&before, (guint)slot))
      return TRUE;
  return FALSE;
}

/* Whether no module finds another place. */
gboolean
lid_cure_only_takes_out (const GArray *moves)
{
  for (guint i = 0; i < moves->len; i++)
    if (g_array_index (moves, LidMove, i).to != LID_NOWHERE)
      return FALSE;
  return TRUE;
}

/* Where what sat in @slot is after the moves. */
static int
place_after (const GArray *moves, int slot)
{
  for (guint i = 0; i < moves->len; i++)
    if (g_array_index (moves, LidMove, i).from == slot)
      return g_array_index (moves, LidMove, i).to;
  return slot;
}

static gboolean
names (const LidFinding *finding, int slot)
{
  for (guint i = 0; i < finding->n_slots; i++)
    if ((int)finding->slots[i] == slot)
      return TRUE;
  return FALSE;
}

/* Fewer of a rule may be left, and the one that is to be cleared among them: word for word, or for
 * a module that is useless in its new place for the same reason. */
static gboolean
is_still_said (const LidFinding *finding, const LidCureCandidate *candidate)
{
  const GPtrArray *after = candidate->after->findings;
  gboolean stopped = finding->grade == LID_GRADE_STOPS && finding->stops == LID_STOPS_SLOTS;

  for (guint i = 0; i < after->len; i++)
    {
      const LidFinding *other = after->pdata[i];

      if (other->rule != finding->rule)
        continue;
      if (strcmp (other->text, finding->text) == 0)
        return TRUE;
      for (guint k = 0; stopped && k < finding->n_slots; k++)
        if (other->grade == LID_GRADE_STOPS
            && names (other, place_after (candidate->moves, (int)finding->slots[k])))
          return TRUE;
    }
  return FALSE;
}

static guint
count_unusable (const LidCureWork *cure, const guint8 *unusable)
{
  guint n = 0;

  for (guint i = 0; i < cure->check->board->n_slots; i++)
    n += unusable[i];
  return n;
}

static gint64
capacity_taken_out (const GArray *moves)
{
  gint64 mib = 0;

  for (guint i = 0; i < moves->len; i++)
    if (g_array_index (moves, LidMove, i).to == LID_NOWHERE)
      mib += lid_module_capacity (g_array_index (moves, LidMove, i).module);
  return mib;
}

/* Moving modules about makes no more of them useless, nor leaves less that works. What comes out
 * costs its capacity, which is said; a machine that starts at last may leave some unused. */
static gboolean
wastes (const LidCureWork *cure, const LidCureCandidate *candidate)
{
  const LidAssessment *after = candidate->after;

  return after->figures.capacity_mib + capacity_taken_out (candidate->moves)
             < cure->figures->capacity_mib
         || (cure->figures->starts >= after->figures.starts
             && count_unusable (cure, after->unusable) > count_unusable (cure, cure->unusable));
}

/* Who is told that it could run faster is not sent to where it does not. */
static gboolean
is_no_faster (const LidCureWork *cure, const LidFinding *finding, const LidFigures *after)
{
  return finding->rule == &lid_rule_slowed && after->running <= cure->figures->running;
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

  if (!judge (cure, candidate))
    return FALSE;
  left = count (candidate->after->findings, finding->rule, finding->grade);
  if (left >= before || sends_astray (cure, candidate->after->findings)
      || unprotects (cure, finding, &candidate->after->figures)
      || is_no_faster (cure, finding, &candidate->after->figures)
      || is_still_said (finding, candidate) || wastes (cure, candidate))
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
