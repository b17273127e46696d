/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What moves clear a finding, and which of them are best, by the order that checks/cure.c states:
 * asked of the checker as anybody can ask it. */
#include "cures-oracle.h"

#include "checks/remedy.h"
#include "checks/rules.h"

#include <string.h>

void
cures_try_free (CuresTry *one)
{
  if (one == NULL)
    return;
  g_array_unref (one->moves);
  lid_assessment_free (one->after);
  g_free (one);
}

/* As a list of sorts each: what one channel has more of than another, they are not alike. */
static guint
count_alike (const LidQuestion *question, const LidPopulation *population)
{
  const LidBoard *board = question->board;
  guint alike = 0;

  for (guint a = 0; a < board->n_channels; a++)
    for (guint b = a + 1; b < board->n_channels; b++)
      {
        gboolean same = TRUE;

        for (guint i = 0; same && i < board->n_slots; i++)
          {
            int more = 0;

            for (guint k = 0; population->slots[i].module != NULL && k < board->n_slots; k++)
              if (population->slots[k].module != NULL
                  && cures_deal_alike (population->slots[i].module, population->slots[k].module))
                more += (board->slots[k].channel == (int)a) - (board->slots[k].channel == (int)b);
            same = more == 0;
          }
        alike += same;
      }
  return alike;
}

CuresTry *
cures_try_new (const CuresOracle *oracle, const GArray *moves)
{
  const LidRemedy remedy = { .moves = (GArray *)moves };
  g_autoptr (LidPopulation) after = lid_remedy_apply (&remedy, oracle->question->population);
  CuresTry *one = g_new0 (CuresTry, 1);

  one->moves = g_array_ref ((GArray *)moves);
  one->alike = oracle->all != NULL ? count_alike (oracle->question, after) : 0;
  one->after = lid_assessment_new_plain (
      &(LidQuestion){ oracle->question->board, after, oracle->question->as_found });
  return one;
}

/* Findings of a rule, of any where it is NULL, of these grades. */
static guint
count (const LidAssessment *in, const LidRule *rule, LidGrade least, LidGrade most, gboolean slots)
{
  guint n = 0;

  for (guint i = 0; i < in->findings->len; i++)
    {
      const LidFinding *one = in->findings->pdata[i];

      if ((rule == NULL || one->rule == rule) && one->grade >= least && one->grade <= most)
        n += slots ? one->n_slots : 1;
    }
  return n;
}

gboolean
cures_oracle_had_nothing (const CuresOracle *oracle)
{
  return !oracle->planned->figures.starts || oracle->planned->figures.capacity_mib == 0;
}

static gboolean
is_slower (const CuresOracle *oracle, const LidFigures *after)
{
  const LidFigures *before = &oracle->planned->figures;
  int whole;

  if (after->mode.effect == LID_EFFECT_TAKEN && before->mode.effect != LID_EFFECT_TAKEN)
    return FALSE;
  if (!lid_ratio_is_known (after->whole_mbs) || !lid_ratio_is_known (before->whole_mbs))
    return FALSE;
  whole = lid_ratio_compare (before->whole_mbs, after->whole_mbs);
  return whole > 0 || (whole == 0 && lid_ratio_compare (before->worst_mbs, after->worst_mbs) > 0);
}

/* Whether what is in a slot is said not to go in. */
static gboolean
names_misfit (const LidAssessment *in, guint slot)
{
  gboolean names = FALSE;

  for (guint i = 0; i < in->findings->len; i++)
    {
      const LidFinding *one = in->findings->pdata[i];

      for (guint k = 0; one->rule->phase == LID_PHASE_GOES_IN && k < one->n_slots; k++)
        names = names || one->slots[k] == slot;
    }
  return names;
}

/* Whether modules are moved about to have less that works, or more that does not. */
static gboolean
is_waste (const CuresOracle *oracle, const CuresTry *tried)
{
  const LidAssessment *before = oracle->planned, *after = tried->after;
  gint64 out = 0;
  int more = 0;

  for (guint i = 0; tried->moves != NULL && i < tried->moves->len; i++)
    if (g_array_index (tried->moves, LidMove, i).to < 0)
      out += lid_module_capacity (g_array_index (tried->moves, LidMove, i).module);
  for (guint slot = 0; slot < oracle->question->board->n_slots; slot++)
    more += after->unusable[slot] - before->unusable[slot];
  return after->figures.capacity_mib + out < before->figures.capacity_mib
         || (more > 0 && !(after->figures.starts && !before->figures.starts));
}

/* Whether @then stops a module that @now stops, wherever it sits by then. */
static gboolean
is_stopped_again (const LidFinding *now, const LidFinding *then, const GArray *moves)
{
  if (now->grade != LID_GRADE_STOPS || now->stops != LID_STOPS_SLOTS
      || then->grade != LID_GRADE_STOPS)
    return FALSE;
  for (guint i = 0; i < then->n_slots; i++)
    for (guint k = 0; k < now->n_slots; k++)
      {
        int at = (int)now->slots[k];

        for (guint m = 0; moves != NULL && m < moves->len; m++)
          if (g_array_index (moves, LidMove, m).from == (int)now->slots[k])
            at = g_array_index (moves, LidMove, m).to;
        if (at == (int)then->slots[i])
          return TRUE;
      }
  return FALSE;
}

/* The finding is gone, or with as many of its rule fewer slots are named; nothing stops that did
 * not, and no memory mode is refused that took effect; and @at_no_price no capacity is lost and,
 * once it is not a matter of starting, nothing. */
gboolean
cures_oracle_clears (const CuresOracle *oracle,
                     const LidFinding *finding,
                     const CuresTry *tried,
                     gboolean at_no_price)
{
  const LidAssessment *after = tried->after;
  const LidRule *rule = finding->rule;
  guint left = count (after, rule, finding->grade, LID_GRADE_STOPS, FALSE);
  guint was_left = count (oracle->seen, rule, finding->grade, LID_GRADE_STOPS, FALSE);
  guint named = count (after, rule, finding->grade, LID_GRADE_STOPS, TRUE);
  guint was_named = count (oracle->seen, rule, finding->grade, LID_GRADE_STOPS, TRUE);
  guint loses = count (after, NULL, LID_GRADE_LOSES, LID_GRADE_LOSES, FALSE);
  guint may_lose = count (oracle->seen, NULL, LID_GRADE_LOSES, LID_GRADE_LOSES, FALSE);

  if (left >= was_left || (left > 0 && finding->n_slots > 0 && named >= was_named)
      || (oracle->planned->figures.mode.effect == LID_EFFECT_TAKEN
          && after->figures.mode.effect != LID_EFFECT_TAKEN))
    return FALSE;
  if (is_waste (oracle, tried)
      || (rule == &lid_rule_slowed && after->figures.running <= oracle->planned->figures.running))
    return FALSE;
  /* What does not go in goes nowhere else; nor is the finding itself there word for word. */
  for (guint i = 0; i < after->findings->len; i++)
    {
      const LidFinding *one = after->findings->pdata[i];

      if (one->rule == rule
          && (strcmp (one->text, finding->text) == 0
              || is_stopped_again (finding, one, tried->moves)))
        return FALSE;
      for (guint k = 0; one->rule->phase == LID_PHASE_GOES_IN && k < one->n_slots; k++)
        if (!names_misfit (oracle->planned, one->slots[k]))
          return FALSE;
    }
  /* What refuses the mode is not cleared as long as it is refused. */
  if (rule->refuses_mode && after->figures.mode.effect == LID_EFFECT_REFUSED)
    return FALSE;
  for (guint i = 0; lid_rules[i] != NULL; i++)
    if (count (after, lid_rules[i], LID_GRADE_STOPS, LID_GRADE_STOPS, FALSE) > 0
        && count (oracle->planned, lid_rules[i], LID_GRADE_STOPS, LID_GRADE_STOPS, FALSE) == 0
        && !(lid_rules[i] == &lid_rule_no_memory && cures_oracle_had_nothing (oracle)))
      return FALSE;
  if (!at_no_price)
    return TRUE;
  if (oracle->planned->figures.starts
      && after->figures.capacity_mib < oracle->planned->figures.capacity_mib)
    return FALSE;
  if (finding->grade == LID_GRADE_LOSES)
    may_lose--;
  return finding->grade == LID_GRADE_STOPS
         || (loses <= may_lose && !is_slower (oracle, &after->figures));
}

/* Positive: @a leaves the machine the better, whatever it takes. */
int
cures_oracle_compare_gain (const CuresTry *a, const CuresTry *b)
{
  const LidFigures *x = &a->after->figures, *y = &b->after->figures;

  if (x->starts != y->starts)
    return x->starts ? 1 : -1;
  if (x->usable_mib != y->usable_mib)
    return x->usable_mib > y->usable_mib ? 1 : -1;
  if (lid_ratio_is_known (x->whole_mbs) && lid_ratio_is_known (y->whole_mbs))
    return lid_ratio_compare (x->whole_mbs, y->whole_mbs);
  /* a share that is known before one that is not */
  return lid_ratio_compare (x->even_share, y->even_share);
}

/* Positive: @a is the better one. */
int
cures_oracle_compare (const CuresTry *a, const CuresTry *b)
{
  int gain = cures_oracle_compare_gain (a, b);

  if (gain == 0)
    gain = (int)count (b->after, NULL, LID_GRADE_LOSES, LID_GRADE_STOPS, FALSE)
           - (int)count (a->after, NULL, LID_GRADE_LOSES, LID_GRADE_STOPS, FALSE);
  if (gain == 0)
    gain = (int)a->alike - (int)b->alike;
  return gain != 0 ? gain : (int)b->moves->len - (int)a->moves->len;
}

/* In the same order. */
gboolean
cures_same_moves (const GArray *a, const GArray *b)
{
  for (guint i = 0; a->len == b->len && i < a->len; i++)
    {
      const LidMove *x = &g_array_index (a, LidMove, i), *y = &g_array_index (b, LidMove, i);

      if (x->module != y->module || x->from != y->from || x->to != y->to)
        return FALSE;
    }
  return a->len == b->len;
}

/* The order in which rules speak. */
gboolean
cures_speaks_before (const LidAssessment *in, guint a, guint b)
{
  const LidFinding *x = in->findings->pdata[a], *y = in->findings->pdata[b];
  guint at_x = 0, at_y = 0;

  while (lid_rules[at_x] != x->rule)
    at_x++;
  while (lid_rules[at_y] != y->rule)
    at_y++;
  if (x->rule->phase != y->rule->phase)
    return x->rule->phase < y->rule->phase;
  return at_x != at_y ? at_x < at_y : a < b;
}

/* Takes @moves. */
static void
try_moves (const CuresOracle *oracle, const LidFinding *finding, GArray *moves, CuresTry **best)
{
  g_autoptr (GArray) own = moves;
  g_autoptr (CuresTry) one = NULL;

  if (own == NULL)
    return;
  one = cures_try_new (oracle, own);
  if (!cures_oracle_clears (oracle, finding, one, TRUE)
      || (*best != NULL && cures_oracle_compare (one, *best) <= 0))
    return;
  cures_try_free (*best);
  *best = g_steal_pointer (&one);
}

/* Takes @moves: of what is in the machine. */
static void
try_moved (const CuresOracle *oracle, const LidFinding *finding, GArray *moves, CuresTry **best)
{
  if (moves != NULL && cures_deal_empties (oracle->question, moves))
    g_clear_pointer (&moves, g_array_unref);
  try_moves (oracle, finding, moves, best);
}

/* The modules on the tray, sort by sort. */
static GPtrArray *
sort_tray (const GPtrArray *tray)
{
  GPtrArray *sorts = g_ptr_array_new_with_free_func ((GDestroyNotify)g_ptr_array_unref);

  for (guint i = 0; tray != NULL && i < tray->len; i++)
    {
      GPtrArray *mine = NULL;

      for (guint k = 0; mine == NULL && k < sorts->len; k++)
        if (cures_deal_alike (((GPtrArray *)sorts->pdata[k])->pdata[0], tray->pdata[i]))
          mine = sorts->pdata[k];
      if (mine == NULL)
        g_ptr_array_add (sorts, mine = g_ptr_array_new ());
      g_ptr_array_add (mine, tray->pdata[i]);
    }
  return sorts;
}

static gboolean
is_mixed (const LidAssessment *in)
{
  return count (in, &lid_rule_mixed_ranks, LID_GRADE_UNSURE, LID_GRADE_STOPS, FALSE) > 0
         || count (in, &lid_rule_mixed_widths, LID_GRADE_UNSURE, LID_GRADE_STOPS, FALSE) > 0
         || count (in, &lid_rule_mixed_densities, LID_GRADE_UNSURE, LID_GRADE_STOPS, FALSE) > 0;
}

/* All arrangements, whatever the rule, where they are few; otherwise the ways that often do. */
static void
try_inside (const CuresOracle *oracle, const LidFinding *finding, CuresTry **best)
{
  const LidQuestion *question = oracle->question;
  guint32 ways = finding->rule->cures;
  int last = (int)question->board->n_sockets - 1;
  g_autoptr (GPtrArray) all
      = question->board->channels_told ? cures_arrangements (question, CURES_ALL_TRIED) : NULL;
  g_autoptr (GPtrArray) nudged = NULL;

  for (int s = LID_NOWHERE; (ways & LID_CURE_SETTLE) && s <= last; s++)
    {
      try_moves (oracle, finding, cures_deal_settled (question, finding, s, FALSE), best);
      try_moves (oracle, finding, cures_deal_settled (question, finding, s, TRUE), best);
    }
  for (guint i = 0; ways != 0 && oracle->all != NULL && i < oracle->all->len; i++)
    try_moved (oracle, finding, g_array_ref (oracle->all->pdata[i]), best);
  if (oracle->all != NULL || !(ways & LID_CURE_SPREAD))
    return;
  try_moved (oracle, finding, cures_deal_spread (question, TRUE, FALSE), best);
  try_moved (oracle, finding, cures_deal_spread (question, TRUE, TRUE), best);
  try_moved (oracle, finding, cures_deal_spread (question, FALSE, FALSE), best);
  for (guint way = 0; way < 3 && is_mixed (oracle->seen); way++)
    try_moved (oracle, finding, cures_sorts_spread (question, way == 0, way == 2), best);
  nudged = cures_deal_nudged (question);
  for (guint i = 0; i < nudged->len; i++)
    try_moved (oracle, finding, g_array_ref (nudged->pdata[i]), best);
}

/**
 * cures_oracle_best:
 *
 * Returns: (transfer full) (nullable): of the moves that are looked for, those to be offered
 */
CuresTry *
cures_oracle_best (const CuresOracle *oracle, const LidFinding *finding)
{
  const LidQuestion *question = oracle->question;
  guint32 ways = finding->rule->cures;
  g_autoptr (GPtrArray) sorts = sort_tray (oracle->tray);
  CuresTry *best = NULL;

  try_inside (oracle, finding, &best);
  if (best == NULL && (ways & LID_CURE_EXCHANGE))
    for (guint i = 0; i < sorts->len; i++)
      try_moves (oracle, finding, cures_deal_exchanged (question, finding, sorts->pdata[i]), &best);
  if (best == NULL && (ways & LID_CURE_FIT))
    for (guint n = 1; n <= 8; n++)
      for (guint i = 0; i < sorts->len; i++)
        try_moves (oracle, finding, cures_deal_fitted (question, sorts->pdata[i], n), &best);
  return best;
}
