/* SPDX-License-Identifier: GPL-3.0-or-later */
/* mode-demands.c: does the memory mode take effect?
 *
 * What a mode asks is the board's word (LidBoardMode); only two demands are arithmetic: each
 * channel needs more ranks than are spared, and at most half of the capacity can be mirrored. A
 * board silent on a demand demands nothing; one that does not say which modes it has forbids none,
 * but without pairs nobody knows what mirroring leaves (product.md 6, settled reading 8).
 *
 * One demand not met and the firmware falls back to plain: the machine starts, unprotected
 * (shared/facts/population.md 3, trap 4). Demands look at usable modules; where is kept by slot, so
 * that each can be a finding with its slots. */
#include "figures/mode-demands.h"

#include "figures/capacity.h"

#include <string.h>

typedef struct
{
  const LidSurvey *survey;
  const guint8 *unusable;
  const LidBoardMode *rule; /* nullable */
  LidFigures *figures;
  LidModeFigures *mode;
} Judge;

static gboolean
counts (const Judge *j, guint slot)
{
  return lid_capacity_counts (j->survey, j->unusable, slot);
}

static void
fail_at (Judge *j, LidDemand demand, guint slot)
{
  j->mode->unmet |= 1u << demand;
  j->mode->unmet_at[slot] |= 1u << demand;
}

/* @facts: 1 << LidFact, not none */
static void
miss_at (Judge *j, LidDemand demand, guint32 facts, guint slot)
{
  j->mode->open |= 1u << demand;
  j->mode->missed_at[slot] |= facts;
}

/* All usable modules of a channel. */
static void
fail_channel (Judge *j, LidDemand demand, guint channel)
{
  const LidBoardChannel *place = &j->survey->board->channels[channel];

  for (guint i = 0; i < place->n_slots; i++)
    if (counts (j, place->slots[i]))
      fail_at (j, demand, place->slots[i]);
}

static gboolean
is_in_a_pair (const LidBoardMode *rule, guint channel)
{
  for (guint i = 0; i < rule->n_pairs; i++)
    if (rule->pairs[i].a == channel || rule->pairs[i].b == channel)
      return TRUE;
  return rule->n_pairs == 0;
}

static void
judge_counts (Judge *j)
{
  const LidBoard *board = j->survey->board;

  for (guint s = 0; j->rule->modules_of_socket != 0 && s < board->n_sockets; s++)
    {
      const LidBoardSocket *socket = &board->sockets[s];
      guint n = 0;

      for (guint i = 0; i < socket->n_channels; i++)
        n += j->figures->channels[socket->first_channel + i].modules;
      if (n == 0 || (n < 64 && (j->rule->modules_of_socket >> n & 1) == 1))
        continue;
      for (guint i = 0; i < socket->n_channels; i++)
        fail_channel (j, LID_DEMAND_MODULES_OF_SOCKET, socket->first_channel + i);
    }
  for (guint c = 0; c < board->n_channels; c++)
    if (is_in_a_pair (j->rule, c)
        && j->figures->channels[c].modules < j->rule->least_modules_of_channel)
      fail_channel (j, LID_DEMAND_MODULES_OF_CHANNEL, c);
}

static guint32
facts_of (LidAlike alike)
{
  guint32 facts = 1u << LID_FACT_CAPACITY;

  if (alike == LID_ALIKE_ORGANISATION)
    facts |= 1u << LID_FACT_KIND | 1u << LID_FACT_RANKS | 1u << LID_FACT_CHIP_WIDTH;
  for (guint f = 0; alike == LID_ALIKE_PART && f < LID_N_FACTS; f++)
    if (lid_fact_is_rule_relevant (f))
      facts |= 1u << f;
  return facts;
}

/**
 * lid_mode_demands_compare:
 * @alike: how much alike two modules must be
 *
 * Equal part numbers are equal modules; facts that differ settle it, facts that are not told leave
 * it open (product.md 3).
 *
 * Returns: 1 where @a and @b may face each other in a pair, 0 where not, -1 where it is not told
 */
int
lid_mode_demands_compare (LidAlike alike, const LidModule *a, const LidModule *b)
{
  guint32 facts = facts_of (alike);
  int verdict = 1;

  if (alike == LID_ALIKE_NOT_TOLD || lid_module_same (a, b))
    return 1;
  for (guint f = 0; f < LID_N_FACTS; f++)
    if ((facts >> f & 1) == 0)
      continue;
    else if (!lid_module_knows (a, f) || !lid_module_knows (b, f))
      verdict = -1;
    else if (a->value[f] != b->value[f])
      return 0;
  return verdict;
}

static void
judge_two (Judge *j, guint slot_a, guint slot_b)
{
  const guint slots[] = { slot_a, slot_b };
  int verdict = lid_mode_demands_compare (j->rule->alike, lid_survey_module (j->survey, slot_a),
                                          lid_survey_module (j->survey, slot_b));
  guint32 facts = facts_of (j->rule->alike);

  for (guint k = 0; k < 2 && verdict != 1; k++)
    if (verdict == 0)
      fail_at (j, LID_DEMAND_ALIKE, slots[k]);
    else
      for (guint f = 0; f < LID_N_FACTS; f++)
        if ((facts >> f & 1) == 1 && !lid_module_knows (lid_survey_module (j->survey, slots[k]), f))
          miss_at (j, LID_DEMAND_ALIKE, 1u << f, slots[k]);
}

static void
judge_alike (Judge *j, LidChannelPair pair)
{
  const LidBoardChannel *a = &j->survey->board->channels[pair.a];
  const LidBoardChannel *b = &j->survey->board->channels[pair.b];

  for (guint i = 0; i < MAX (a->n_slots, b->n_slots); i++)
    {
      gboolean in_a = i < a->n_slots && counts (j, a->slots[i]);
      gboolean in_b = i < b->n_slots && counts (j, b->slots[i]);

      if (in_a && !in_b)
        fail_at (j, LID_DEMAND_ALIKE, a->slots[i]);
      else if (in_b && !in_a)
        fail_at (j, LID_DEMAND_ALIKE, b->slots[i]);
      else if (in_a)
        judge_two (j, a->slots[i], b->slots[i]);
    }
}

/* Whether pairs are told, some pair has memory on both sides, and where asked all are alike. */
static void
judge_pairs (Judge *j)
{
  gboolean both = FALSE;

  if (j->rule == NULL || j->rule->n_pairs == 0)
    {
      if (j->mode->asked != LID_MODE_PARTLY_MIRRORED)
        j->mode->open |= 1u << LID_DEMAND_PAIRS;
      return;
    }
  for (guint i = 0; i < j->rule->n_pairs; i++)
    {
      both = both
             || (j->figures->channels[j->rule->pairs[i].a].modules > 0
                 && j->figures->channels[j->rule->pairs[i].b].modules > 0);
      if (j->rule->alike != LID_ALIKE_NOT_TOLD)
        judge_alike (j, j->rule->pairs[i]);
    }
  if (both)
    return;
  j->mode->unmet |= 1u << LID_DEMAND_PAIRS;
  for (guint c = 0; c < j->survey->board->n_channels; c++)
    fail_channel (j, LID_DEMAND_PAIRS, c);
}

/**
 * lid_mode_demands_least_ranks:
 * @rule: (nullable): what the board demands
 * @spare_ranks: how many a channel sets aside
 *
 * Returns: the ranks each populated channel needs: more than are spared, or what the board says
 */
guint
lid_mode_demands_least_ranks (const LidBoardMode *rule, guint spare_ranks)
{
  guint least = spare_ranks + 1;

  return rule != NULL ? MAX (least, rule->least_ranks_of_channel) : least;
}

static void
judge_spared (Judge *j)
{
  const LidBoard *board = j->survey->board;
  guint least = lid_mode_demands_least_ranks (j->rule, j->mode->spare_ranks);

  if (j->rule != NULL && j->rule->most_spare_ranks > 0
      && j->mode->spare_ranks > j->rule->most_spare_ranks)
    j->mode->unmet |= 1u << LID_DEMAND_SPARE;
  if (!board->channels_told)
    j->mode->open |= 1u << LID_DEMAND_RANKS;
  for (guint c = 0; c < board->n_channels; c++)
    {
      const LidSurveyChannel *channel = &j->survey->channels[c];
      guint ranks = 0;
      gboolean told = TRUE;

      for (guint i = 0; i < channel->n_fitted; i++)
        {
          guint slot = channel->fitted[i];
          gboolean known;

          if (!counts (j, slot))
            continue;
          ranks += lid_board_count_ranks (board, lid_survey_module (j->survey, slot), &known);
          told = told && known;
          if (!known)
            miss_at (j, LID_DEMAND_RANKS,
                     lid_board_ranks_missing (board, lid_survey_module (j->survey, slot)), slot);
        }
      if (told && ranks < least)
        fail_channel (j, LID_DEMAND_RANKS, c);
    }
}

static void
judge_partly (Judge *j)
{
  gint64 mirrored = j->survey->population->mirrored_mib;

  if (mirrored == 0)
    j->mode->open |= 1u << LID_DEMAND_SIZE;
  else if (j->figures->capacity_known && mirrored > j->figures->capacity_mib / 2)
    j->mode->unmet |= 1u << LID_DEMAND_SIZE;
  if (j->rule != NULL && j->rule->step_mib != 0 && mirrored % j->rule->step_mib != 0)
    j->mode->unmet |= 1u << LID_DEMAND_STEP;
}

static void
judge (Judge *j)
{
  const LidBoard *board = j->survey->board;

  if (j->rule == NULL && board->modes_told)
    {
      j->mode->unmet |= 1u << LID_DEMAND_OFFERED;
      return;
    }
  if (j->rule == NULL)
    j->mode->open |= 1u << LID_DEMAND_OFFERED;
  if (j->rule != NULL && (j->rule->not_with & 1) != 0 && j->survey->population->numa_split > 1)
    j->mode->unmet |= 1u << LID_DEMAND_SETTING;
  if (j->rule != NULL)
    judge_counts (j);
  if (j->mode->asked == LID_MODE_SPARED)
    judge_spared (j);
  else
    judge_pairs (j);
  if (j->mode->asked == LID_MODE_PARTLY_MIRRORED)
    judge_partly (j);
}

/**
 * lid_mode_demands_forget:
 * @figures: (inout): its mode becomes that of a machine nothing is asked of
 */
void
lid_mode_demands_forget (const LidSurvey *survey, LidFigures *figures)
{
  LidModeFigures *mode = &figures->mode;

  mode->asked = survey->population->mode;
  mode->effect = LID_EFFECT_PLAIN;
  mode->unmet = mode->open = 0;
  mode->spare_ranks = MAX (survey->population->spare_ranks, 1);
  for (guint i = 0; i < survey->board->n_slots; i++)
    mode->unmet_at[i] = mode->missed_at[i] = 0;
}

/**
 * lid_mode_demands_judge:
 * @survey: a population
 * @unusable: (nullable): per slot, 1 where a finding stops it
 * @figures: (inout): capacity stands in it; its mode is set, and whether the usable capacity can be
 * known
 *
 * Whether the memory mode takes effect, and which demands are not met where. Sources: product.md 6,
 * "Usable capacity" and settled reading 8; shared/facts/population.md 3.
 */
void
lid_mode_demands_judge (const LidSurvey *survey, const guint8 *unusable, LidFigures *figures)
{
  const guint32 deciding = 1u << LID_DEMAND_PAIRS | 1u << LID_DEMAND_ALIKE | 1u << LID_DEMAND_RANKS;
  LidMode asked = survey->population->mode;
  Judge j
      = { survey, unusable, lid_board_find_mode (survey->board, asked), figures, &figures->mode };

  lid_mode_demands_forget (survey, figures);
  figures->usable_known = figures->capacity_known;
  if (asked == LID_MODE_PLAIN)
    return;
  judge (&j);
  j.mode->effect = j.mode->unmet != 0  ? LID_EFFECT_REFUSED
                   : j.mode->open != 0 ? LID_EFFECT_UNSURE
                                       : LID_EFFECT_TAKEN;
  if (j.mode->effect == LID_EFFECT_UNSURE && (j.mode->open & deciding) != 0)
    figures->usable_known = FALSE;
}
