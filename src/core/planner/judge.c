/* SPDX-License-Identifier: GPL-3.0-or-later */
/* judge.c: a filling of the slots becomes a population, and the checker says
 * what it is worth.
 *
 * Legality is the checker's word alone. A filling is given as one kind per
 * slot. A slot that holds what was found there keeps that very module, with its
 * state, so that a population that is as found is recognised as such and judged
 * by its own evidence. */
#include "planner/judge.h"

#include "checks/rule.h"
#include "figures/running-rate.h"

#include <string.h>

/* The constants of bandwidth.c between S × rate ÷ T and MB/s: 8 bytes, thirds,
 * efficiency. */
#define BYTES 8
#define THIRDS 3
#define FULL_EFFICIENCY 10000

static gboolean
sockets_told (const LidBoard *board)
{
  for (guint i = 0; i < board->n_channels; i++)
    if (board->channels[i].socket == LID_NOWHERE)
      return FALSE;
  return board->channels_told;
}

/**
 * lid_plan_judge_init:
 * @judge: (out): to be given back with lid_plan_judge_clear()
 * @question: borrowed, like the rest
 */
void
lid_plan_judge_init (LidPlanJudge *judge,
                     const LidPlanQuestion *question,
                     const LidWish *wish,
                     const LidCandidates *candidates)
{
  const LidPopulation *from = question->settings != NULL ? question->settings : question->as_found;

  *judge = (LidPlanJudge){ .question = question, .wish = wish, .candidates = candidates };
  judge->base = from != NULL ? lid_population_copy (from) : lid_population_new (question->board);
  for (guint i = 0; i < judge->base->n_slots; i++)
    if (candidates->fate[i] != LID_SLOT_STAYS)
      lid_population_take (judge->base, i);
    else if (question->as_found != NULL && question->as_found->slots[i].module != NULL)
      {
        lid_population_put (judge->base, i, question->as_found->slots[i].module);
        judge->base->slots[i].state = question->as_found->slots[i].state;
        judge->base->slots[i].configured = question->as_found->slots[i].configured;
      }
  judge->settings = judge->base;
  judge->has_speed = sockets_told (question->board);
}

void
lid_plan_judge_clear (LidPlanJudge *judge)
{
  g_clear_pointer (&judge->base, lid_population_free);
}

/* The next of a kind whose modules are each itself: of those found that do not stay, by slot, then
 * of the tray; where a part of a population has more of them than there are, the first again. */
static LidModule *
next_nameless (const LidPlanJudge *judge, const int *kinds, guint kind, guint *next)
{
  const LidCandidates *candidates = judge->candidates;
  const LidPlanKind *of = lid_candidates_kind (candidates, kind);

  for (; *next < candidates->n_slots; (*next)++)
    if (candidates->found_kind[*next] == (int)kind && kinds[*next] != (int)kind)
      return judge->question->as_found->slots[(*next)++].module;
  if (*next - candidates->n_slots < of->tray->len)
    return of->tray->pdata[(*next)++ - candidates->n_slots];
  return of->module;
}

/**
 * lid_plan_judge_build:
 * @judge: at work
 * @kinds: per slot, what goes in; LID_NOWHERE: nothing, or what is there and
 * stays
 *
 * Returns: (transfer full): the population; a module that is not found in its
 * slot stands for all of its kind
 */
LidPopulation *
lid_plan_judge_build (const LidPlanJudge *judge, const int *kinds)
{
  const LidPopulation *found = judge->question->as_found;
  LidPopulation *population = lid_population_copy (judge->base);
  g_autofree guint *next = g_new0 (guint, judge->candidates->kinds->len + 1);

  for (guint i = 0; i < population->n_slots; i++)
    {
      if (kinds[i] == LID_NOWHERE)
        continue;
      if (kinds[i] == judge->candidates->found_kind[i])
        {
          lid_population_put (population, i, found->slots[i].module);
          population->slots[i].state = found->slots[i].state;
          population->slots[i].configured = found->slots[i].configured;
        }
      else if (lid_candidates_kind (judge->candidates, (guint)kinds[i])->nameless)
        lid_population_put (population, i,
                            next_nameless (judge, kinds, (guint)kinds[i], &next[kinds[i]]));
      else
        lid_population_put (population, i,
                            lid_candidates_kind (judge->candidates, (guint)kinds[i])->module);
    }
  return population;
}

/**
 * lid_plan_judge_part:
 * @judge: at work
 * @kinds: a filling of some slots
 *
 * The checker's word on a part of a population, for pruning: nothing is known
 * of as found, so that what stops is never doubted.
 *
 * Returns: (transfer full): findings and figures
 */
LidAssessment *
lid_plan_judge_part (LidPlanJudge *judge, const int *kinds)
{
  g_autoptr (LidPopulation) population = lid_plan_judge_build (judge, kinds);

  judge->judged++;
  return lid_assessment_new_plain (&(LidQuestion){ judge->question->board, population, NULL });
}

/**
 * lid_plan_judge_rate:
 * @kinds: a filling of some slots
 *
 * Returns: the rate of what is fitted, also where something stops the machine, for what is added
 * may clear that: a matter of wires, which know no findings (settled reading 1)
 */
LidRate
lid_plan_judge_rate (LidPlanJudge *judge, const int *kinds)
{
  g_autoptr (LidPopulation) population = lid_plan_judge_build (judge, kinds);
  g_autoptr (LidSurvey) survey = lid_survey_new (judge->question->board, population);
  LidFigures figures;
  LidRate running;

  lid_figures_init (&figures, judge->question->board);
  lid_running_rate_compute (survey, NULL, &figures);
  running = figures.running;
  lid_figures_clear (&figures);
  return running;
}

/**
 * lid_plan_judge_is_lasting:
 *
 * Returns: whether @finding stops something, and its rule declares that no
 * module added ever clears it
 */
gboolean
lid_plan_judge_is_lasting (const LidFinding *finding)
{
  return finding->grade == LID_GRADE_STOPS && finding->rule->lasting;
}

/* Limits that are not the maker's list: every finding of the capacity rules
 * tells of something beyond it. */
static gboolean
is_beyond_list (const LidFinding *finding)
{
  return g_str_has_prefix (lid_finding_rule_id (finding), "capacity-");
}

static LidPlanVerdict
weigh_findings (const LidPlanJudge *judge, const GPtrArray *findings, LidPlanEntry *entry)
{
  LidPlanVerdict verdict = LID_PLAN_LEGAL;

  entry->loses = entry->unsure = 0;
  for (guint i = 0; i < findings->len; i++)
    {
      const LidFinding *finding = findings->pdata[i];

      if (lid_plan_judge_is_lasting (finding))
        verdict = LID_PLAN_NEVER;
      else if (finding->grade == LID_GRADE_STOPS
               || (judge->wish->sure && finding->grade == LID_GRADE_UNSURE)
               || (judge->wish->listed_only && is_beyond_list (finding)))
        verdict = MAX (verdict, LID_PLAN_REFUSED);
      entry->loses += finding->grade == LID_GRADE_LOSES;
      entry->unsure += finding->grade == LID_GRADE_UNSURE;
    }
  return verdict;
}

/**
 * lid_plan_judge_hands:
 * @used: per kind, how many the plan uses
 * @staying: how many modules that are found stay in their slots
 *
 * Each module pulled, fitted or moved counts once: of a kind of which f are
 * found and n used, with k staying, f − k leave their slots and n − k go into
 * one, and as many as can do both.
 *
 * Returns: the hands of a plan (product.md 8)
 */
guint
lid_plan_judge_hands (const LidPlanJudge *judge, const guint *used, guint staying)
{
  guint hands = 0;

  for (guint k = 0; k < judge->candidates->kinds->len; k++)
    hands += MAX (lid_candidates_kind (judge->candidates, k)->found, used[k]);
  return hands - staying;
}

/* Cost, hands, what stays, bins to visit; FALSE where supply or hands do not
 * allow it. */
static gboolean
count_modules (const LidPlanJudge *judge, const int *kinds, LidPlanEntry *entry)
{
  const LidCandidates *candidates = judge->candidates;
  g_autofree guint *used = g_new0 (guint, candidates->kinds->len + 1);
  gboolean allowed = TRUE;

  entry->staying = entry->bins = 0;
  entry->vector.cost = 0;
  for (guint i = 0; i < candidates->n_slots; i++)
    {
      gboolean stays = kinds[i] != LID_NOWHERE && kinds[i] == candidates->found_kind[i];

      if (kinds[i] != LID_NOWHERE)
        used[kinds[i]]++;
      entry->staying += stays;
      if (judge->wish->hands == LID_HANDS_STAY && candidates->found_kind[i] != LID_NOWHERE
          && !stays)
        allowed = FALSE;
    }
  for (guint k = 0; k < candidates->kinds->len; k++)
    {
      const LidPlanKind *kind = lid_candidates_kind (candidates, k);

      if (used[k] > kind->supply || (judge->wish->hands != LID_HANDS_PULL && used[k] < kind->found))
        return FALSE;
      entry->vector.cost
          = MIN (entry->vector.cost + lid_candidates_cost (kind, used[k]), LID_COST_UNKNOWN);
      for (guint left = used[k] > kind->owned ? used[k] - kind->owned : 0, g = 0; left > 0; g++)
        {
          const LidGood *good = &judge->question->goods[g_array_index (kind->goods, guint, g)];

          entry->bins++;
          left -= MIN (left, good->count);
        }
    }
  entry->vector.hands = lid_plan_judge_hands (judge, used, entry->staying);
  return allowed;
}

static void
read_figures (const LidPlanJudge *judge, const LidFigures *figures, LidPlanEntry *entry)
{
  const LidBoard *board = judge->question->board;

  entry->capacity_mib = figures->capacity_mib;
  entry->running = figures->running;
  entry->whole_mbs = figures->whole_mbs;
  entry->vector.usable_mib = figures->usable_mib;
  entry->vector.rated = figures->running != LID_RATE_UNKNOWN || !judge->has_speed;
  entry->vector.speed = LID_RATIO_UNKNOWN;
  if (!judge->has_speed)
    return;
  entry->vector.speed
      = entry->vector.rated
            ? lid_ratio_div (figures->whole_mbs, lid_ratio ((gint64)BYTES * board->efficiency,
                                                            THIRDS * FULL_EFFICIENCY))
            : lid_ratio_mul (figures->even_share, lid_ratio (figures->channels_of_fitted, 1));
}

static gboolean
reaches (const LidPlanJudge *judge, const LidFigures *figures, const LidPlanEntry *entry)
{
  const LidWish *wish = judge->wish;

  if (!figures->starts || !figures->usable_known || figures->usable_mib < judge->least_mib)
    return FALSE;
  if (wish->what == LID_WISH_SPEND && entry->vector.cost > wish->amount)
    return FALSE;
  if (wish->least_rate != LID_RATE_UNKNOWN
      && (figures->running == LID_RATE_UNKNOWN || figures->running < wish->least_rate))
    return FALSE;
  return entry->empty_slots >= wish->free_slots;
}

/* A memory mode may ask that channels be alike slot by slot, so this hangs on the arrangement. */
static gboolean
takes_effect (const LidPlanJudge *judge, const LidFigures *figures)
{
  return judge->settings->mode == LID_MODE_PLAIN || figures->mode.effect == LID_EFFECT_TAKEN;
}

static guint
empty_slots (const LidBoard *board, const LidPopulation *population)
{
  guint n = 0;

  for (guint i = 0; i < board->n_slots; i++)
    n += population->slots[i].module == NULL && board->slots[i].soldered == NULL
         && (board->slots[i].socket == LID_NOWHERE
             || population->processors[board->slots[i].socket].fitted);
  return n;
}

/* Figures and findings of one population into @entry. */
static LidPlanVerdict
assess (LidPlanJudge *judge, const LidPopulation *population, LidPlanEntry *entry)
{
  const LidPlanQuestion *question = judge->question;
  LidQuestion asked = { question->board, population, question->as_found };
  g_autoptr (LidAssessment) assessment = lid_assessment_new_plain (&asked);
  LidPlanVerdict verdict = weigh_findings (judge, assessment->findings, entry);

  judge->judged++;
  read_figures (judge, &assessment->figures, entry);
  entry->empty_slots = empty_slots (question->board, population);
  if (verdict == LID_PLAN_LEGAL && !takes_effect (judge, &assessment->figures))
    return LID_PLAN_REFUSED;
  if (verdict == LID_PLAN_LEGAL && !reaches (judge, &assessment->figures, entry))
    return LID_PLAN_SHORT;
  return verdict;
}

/**
 * lid_plan_judge_ask:
 * @judge: at work
 * @kinds: per slot, what goes in
 * @entry: (out): what it is worth; its kinds are borrowed from @kinds
 *
 * Returns: whether nothing stops it and it is what the wish asks for; only then
 * is @entry whole
 */
LidPlanVerdict
lid_plan_judge_ask (LidPlanJudge *judge, const int *kinds, LidPlanEntry *entry)
{
  g_autoptr (LidPopulation) population = NULL;

  memset (entry, 0, sizeof *entry);
  entry->kinds = (int *)kinds;
  if (!count_modules (judge, kinds, entry))
    return LID_PLAN_SHORT;
  population = lid_plan_judge_build (judge, kinds);
  return assess (judge, population, entry);
}

/**
 * lid_plan_judge_as_found:
 * @judge: at work
 *
 * What is there is always an option of a rearrangement; of another wish, where
 * it is reached already and nothing is stopped. What was found of a persistent
 * or hidden module stays as it is.
 *
 * Returns: (transfer full) (nullable): as found, judged; NULL where it is no
 * option
 */
LidPlanEntry *
lid_plan_judge_as_found (LidPlanJudge *judge)
{
  const LidPlanQuestion *question = judge->question;
  LidPlanEntry entry = { .kinds = judge->candidates->found_kind };

  if (question->as_found == NULL)
    return NULL;
  if (judge->wish->what != LID_WISH_REARRANGE)
    {
      if (lid_plan_judge_ask (judge, judge->candidates->found_kind, &entry) != LID_PLAN_LEGAL)
        return NULL;
    }
  else
    {
      count_modules (judge, entry.kinds, &entry);
      assess (judge, question->as_found, &entry);
    }
  entry.picks = LID_PICK_AS_FOUND;
  return lid_plan_entry_copy (&entry, judge->candidates->n_slots);
}
