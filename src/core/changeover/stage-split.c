/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stage-split.c — what of a plan can be done tonight with the modules at hand.
 *
 * Only slots the plan changes are in question. Each can be done (a module at hand that is what the
 * plan puts there), left (what sits there stays until later) or emptied. A way is legal by the
 * checker's word alone. Of the legal ones the best has the most usable memory tonight, then the
 * most bandwidth, then the fewest touches over both visits, then the fewest findings that say what
 * it loses, then the least left for later. Up to LID_STAGE_EXACT slots every way is tried; with
 * more, the search starts from the ways people would think of (the first k fits in the board's
 * order, or into empty slots first, with the old modules left or taken where one is missing) and
 * changes one slot or two at a time what makes it better: there it finds a good way, not provably
 * the best, and never one worse than doing nothing. */
#include "changeover/stage-split.h"

#include "base/error.h"
#include "checks/assessment.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
may_stand_for (const LidModule *a, const LidModule *b)
{
  return a == b || (!a->persistent && !b->persistent && lid_module_same (a, b));
}

static gboolean
is_at_hand (const LidStageSplit *split, LidModule *module)
{
  return !g_hash_table_contains (split->missing, module);
}

static void
put (LidPopulation *population, guint slot, LidModule *module, GHashTable *used)
{
  lid_population_put (population, slot, module);
  g_hash_table_add (used, module);
}

/* A module at hand, not used yet, that may stand where the plan puts @wanted. */
static LidModule *
find_stand_in (const LidStageSplit *split, LidModule *wanted, GHashTable *used)
{
  const LidPopulation *sources[] = { split->from, split->to };

  for (guint s = 0; s < G_N_ELEMENTS (sources); s++)
    for (guint i = 0; i < sources[s]->n_slots; i++)
      {
        LidModule *module = sources[s]->slots[i].module;

        if (module != NULL && !g_hash_table_contains (used, module) && is_at_hand (split, module)
            && may_stand_for (module, wanted))
          return module;
      }
  return NULL;
}

/* The plan's settings; every slot empty but those nobody touches. */
static LidPopulation *
begin (const LidStageSplit *split, GHashTable *used)
{
  LidPopulation *population = lid_population_copy (split->to);

  for (guint i = 0; i < population->n_slots; i++)
    {
      LidModule *stays = split->from->slots[i].module;

      if (split->changes->slots[i].kind == LID_CHANGE_STAYS && stays != NULL)
        put (population, i, stays, used);
    }
  for (guint i = 0; i < split->n; i++)
    if (population->slots[split->slots[i]].module != NULL)
      lid_population_take (population, split->slots[i]);
  return population;
}

/* Fills the slots to be done: the plan's own modules first, so that none is spent as a stand-in. */
static gboolean
fill (const LidStageSplit *split,
      const guint8 *options,
      LidPopulation *population,
      GHashTable *used)
{
  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < split->n; i++)
      {
        guint slot = split->slots[i];
        LidModule *wanted = split->to->slots[slot].module, *module;

        if (options[i] != LID_STAGE_DONE || wanted == NULL
            || population->slots[slot].module != NULL)
          continue;
        module = pass == 0 ? wanted : find_stand_in (split, wanted, used);
        if (pass == 0 && (g_hash_table_contains (used, module) || !is_at_hand (split, module)))
          continue;
        if (module == NULL)
          return FALSE;
        put (population, slot, module, used);
      }
  return TRUE;
}

/* The population of one way; NULL: it needs what is not there. */
static LidPopulation *
build (const LidStageSplit *split, const guint8 *options)
{
  g_autoptr (GHashTable) used = g_hash_table_new (NULL, NULL);
  g_autoptr (LidPopulation) population = begin (split, used);

  for (guint i = 0; i < split->n; i++)
    {
      LidModule *there = split->from->slots[split->slots[i]].module;

      if (options[i] == LID_STAGE_LEFT && there != NULL)
        put (population, split->slots[i], there, used);
    }
  return fill (split, options, population, used) ? g_steal_pointer (&population) : NULL;
}

static guint
count_hands (const LidStageSplit *split, const LidPopulation *from, const LidPopulation *to)
{
  g_autoptr (LidChanges) changes = lid_changes_new (split->board, from, to);

  return changes->hands;
}

static LidAssessment *
assess (const LidStageSplit *split, const LidPopulation *population)
{
  LidQuestion question = { split->board, population, split->from };

  return lid_assessment_new_plain (&question);
}

/* A mode that does not take effect tonight waits until later. */
static LidAssessment *
assess_with_mode (const LidStageSplit *split, LidPopulation *population)
{
  LidAssessment *assessment = assess (split, population);

  if (assessment->figures.mode.effect == LID_EFFECT_PLAIN
      || assessment->figures.mode.effect == LID_EFFECT_TAKEN
      || population->mode == split->from->mode)
    return assessment;
  lid_assessment_free (assessment);
  population->mode = split->from->mode;
  population->spare_ranks = split->from->spare_ranks;
  population->mirrored_mib = split->from->mirrored_mib;
  return assess (split, population);
}

static LidStageValue
judge (const LidStageSplit *split, LidPopulation *population)
{
  g_autoptr (LidAssessment) assessment = assess_with_mode (split, population);
  const LidFigures *figures = &assessment->figures;
  LidStageValue value
      = { .legal = figures->starts && lid_assessment_worst (assessment) != LID_GRADE_STOPS };

  value.usable = figures->usable_known ? figures->usable_mib : figures->fitted_mib;
  value.whole = lid_ratio_is_known (figures->whole_mbs) ? figures->whole_mbs : figures->even_share;
  for (guint i = 0; i < assessment->findings->len; i++)
    value.loses += ((LidFinding *)assessment->findings->pdata[i])->grade == LID_GRADE_LOSES;
  value.later = count_hands (split, population, split->to);
  value.hands = count_hands (split, split->from, population) + value.later;
  return value;
}

static gboolean
is_better (const LidStageValue *a, const LidStageValue *b)
{
  int whole = 0;

  if (a->legal != b->legal || !a->legal)
    return a->legal && !b->legal;
  if (a->usable != b->usable)
    return a->usable > b->usable;
  if (lid_ratio_is_known (a->whole) && lid_ratio_is_known (b->whole))
    whole = lid_ratio_compare (a->whole, b->whole);
  if (whole != 0)
    return whole > 0;
  if (a->hands != b->hands)
    return a->hands < b->hands;
  return a->loses != b->loses ? a->loses < b->loses : a->later < b->later;
}

/* Private: tries one way; keeps it if it is the best so far. */
gboolean
lid_stage_split_try (LidStageSplit *split, const guint8 *options)
{
  g_autoptr (LidPopulation) population = build (split, options);
  LidStageValue value;

  split->tries++;
  if (population == NULL)
    return FALSE;
  value = judge (split, population);
  if (!is_better (&value, &split->value))
    return FALSE;
  split->value = value;
  memcpy (split->best, options, split->n);
  lid_population_free (split->population);
  split->population = g_steal_pointer (&population);
  return TRUE;
}

static gint
compare_fits (gconstpointer one, gconstpointer two, gpointer data)
{
  const LidStageSplit *split = data;
  guint a = *(const guint *)one, b = *(const guint *)two;
  guint fit_a = split->changes->slots[split->slots[a]].fit - 1; /* none: the largest there is */
  guint fit_b = split->changes->slots[split->slots[b]].fit - 1;

  return fit_a != fit_b ? (fit_a > fit_b) - (fit_a < fit_b) : (a > b) - (a < b);
}

/* Private: whether a slot is in question at all. */
gboolean
lid_stage_split_asks (const LidSlotChange *change)
{
  return change->kind != LID_CHANGE_STAYS && (change->before != NULL || change->after != NULL);
}

static void
list_slots (LidStageSplit *split)
{
  split->slots = g_new0 (guint, split->changes->n_slots + 1);
  for (guint i = 0; i < split->changes->n_slots; i++)
    if (lid_stage_split_asks (&split->changes->slots[i]))
      split->slots[split->n++] = i;
  split->order = g_new0 (guint, split->n + 1);
  for (guint i = 0; i < split->n; i++)
    split->order[i] = i;
  g_qsort_with_data (split->order, (gint)split->n, sizeof *split->order, compare_fits, split);
}

/**
 * lid_stage_split:
 * @board: whose slots
 * @as_found: where the visit begins
 * @to: the plan
 * @missing: set of LidModule of @to that are not at hand
 * @error: LID_ERROR_BAD_CALL: nothing is missing, or nothing that helps can be done without it
 *
 * Processors, firmware and settings are those of the plan; a memory mode that does not take effect
 * tonight stays as it was.
 *
 * Returns: (transfer full) (nullable): the population tonight: nothing stops it
 */
LidPopulation *
lid_stage_split (const LidBoard *board,
                 const LidPopulation *as_found,
                 const LidPopulation *to,
                 GHashTable *missing,
                 GError **error)
{
  g_autoptr (LidChanges) changes = lid_changes_new (board, as_found, to);
  LidStageSplit split = { .board = board, .from = as_found, .to = to, .missing = missing };
  g_autofree guint8 *best = g_new0 (guint8, board->n_slots + 1);
  LidPopulation *tonight;

  split.changes = changes;
  split.best = best;
  split.value.hands = G_MAXUINT;
  if (g_hash_table_size (missing) == 0)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("nothing of the plan is missing, so all of it can be done in one visit"));
      return NULL;
    }
  list_slots (&split);
  lid_stage_search (&split);
  g_free (split.slots);
  g_free (split.order);
  tonight = split.population;
  if (tonight != NULL && split.value.legal && count_hands (&split, as_found, tonight) > 0)
    return tonight;
  lid_population_free (tonight);
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
               _ ("with the modules at hand nothing can be fitted tonight that helps and that "
                  "nothing stops; do all of it later"));
  return NULL;
}
