/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stage-split.c — what of a plan can be done tonight with the modules at hand.
 *
 * Only slots the plan changes are in question. Each can be done (a module at hand that is what the
 * plan puts there), left (what sits there stays until later) or emptied. A way is legal by the
 * checker's word alone. Of the legal ones the best has the most usable memory tonight, then the
 * most bandwidth, then the fewest touches over both visits, then the fewest left for later. Up to
 * EXACT slots every way is tried; with more, the search starts from the ways people would think of
 * (everything that can be done; the same with the old modules left where one is missing; the first
 * k fits in the board's order) and changes slot by slot what makes it better: there it finds a good
 * way, not provably the best, and never one worse than doing nothing. */
#include "changeover/stages.h"

#include "base/error.h"
#include "checks/assessment.h"
#include "job/changes.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define EXACT 8u
#define MOST_TRIES 4000u

typedef enum
{
  LEFT,
  DONE,
  EMPTIED,
  N_OPTIONS
} Option;

/* How good a way is. */
typedef struct
{
  gboolean legal;
  gint64 usable;
  LidRatio whole;
  guint hands, later;
} Value;

typedef struct
{
  const LidBoard *board;
  const LidPopulation *from, *to;
  GHashTable *missing;
  LidChanges *changes;
  guint n; /* slots in question */
  guint *slots;
  guint8 *best; /* Option of each */
  Value value;
  LidPopulation *population; /* of the best way */
  guint tries;
} Split;

static gboolean
may_stand_for (const LidModule *a, const LidModule *b)
{
  return a == b || (!a->persistent && !b->persistent && lid_module_same (a, b));
}

static gboolean
is_at_hand (const Split *split, LidModule *module)
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
find_stand_in (const Split *split, LidModule *wanted, GHashTable *used)
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
begin (const Split *split, GHashTable *used)
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
fill (const Split *split, const guint8 *options, LidPopulation *population, GHashTable *used)
{
  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < split->n; i++)
      {
        guint slot = split->slots[i];
        LidModule *wanted = split->to->slots[slot].module, *module;

        if (options[i] != DONE || wanted == NULL || population->slots[slot].module != NULL)
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
build (const Split *split, const guint8 *options)
{
  g_autoptr (GHashTable) used = g_hash_table_new (NULL, NULL);
  g_autoptr (LidPopulation) population = begin (split, used);

  for (guint i = 0; i < split->n; i++)
    {
      LidModule *there = split->from->slots[split->slots[i]].module;

      if (options[i] == LEFT && there != NULL)
        put (population, split->slots[i], there, used);
    }
  return fill (split, options, population, used) ? g_steal_pointer (&population) : NULL;
}

static guint
count_hands (const Split *split, const LidPopulation *from, const LidPopulation *to)
{
  g_autoptr (LidChanges) changes = lid_changes_new (split->board, from, to);

  return changes->hands;
}

static LidAssessment *
assess (const Split *split, const LidPopulation *population)
{
  LidQuestion question = { split->board, population, split->from };

  return lid_assessment_new_plain (&question);
}

/* A mode that does not take effect tonight waits until later. */
static LidAssessment *
assess_with_mode (const Split *split, LidPopulation *population)
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

static Value
judge (const Split *split, LidPopulation *population)
{
  g_autoptr (LidAssessment) assessment = assess_with_mode (split, population);
  const LidFigures *figures = &assessment->figures;
  Value value
      = { .legal = figures->starts && lid_assessment_worst (assessment) != LID_GRADE_STOPS };

  value.usable = figures->usable_known ? figures->usable_mib : figures->fitted_mib;
  value.whole = lid_ratio_is_known (figures->whole_mbs) ? figures->whole_mbs : figures->even_share;
  value.later = count_hands (split, population, split->to);
  value.hands = count_hands (split, split->from, population) + value.later;
  return value;
}

static gboolean
is_better (const Value *a, const Value *b)
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
  return a->hands != b->hands ? a->hands < b->hands : a->later < b->later;
}

/* Tries one way; keeps it if it is the best so far. */
static gboolean
try_way (Split *split, const guint8 *options)
{
  g_autoptr (LidPopulation) population = build (split, options);
  Value value;

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

static void
try_all (Split *split)
{
  guint8 options[EXACT];
  guint n = 1;

  for (guint i = 0; i < split->n; i++)
    n *= N_OPTIONS;
  for (guint way = 0; way < n; way++)
    {
      guint rest = way;

      for (guint i = 0; i < split->n; i++, rest /= N_OPTIONS)
        options[i] = (guint8)(rest % N_OPTIONS);
      try_way (split, options);
    }
}

/* Can the slot be done by itself: is its module, or one like it, at hand? */
static gboolean
can_be_done (const Split *split, guint slot)
{
  g_autoptr (GHashTable) none = g_hash_table_new (NULL, NULL);
  LidModule *wanted = split->to->slots[slot].module;

  return wanted == NULL || is_at_hand (split, wanted)
         || find_stand_in (split, wanted, none) != NULL;
}

/* The ways people would think of: the first @k fits at most, the others @rest. */
static void
try_start (Split *split, guint k, Option rest)
{
  g_autofree guint8 *options = g_new0 (guint8, split->n);

  for (guint i = 0; i < split->n; i++)
    {
      guint slot = split->slots[i], fit = split->changes->slots[slot].fit;
      gboolean in = fit == 0 || fit <= k;

      options[i] = in && can_be_done (split, slot) ? DONE : rest;
    }
  try_way (split, options);
}

static void
climb (Split *split)
{
  g_autofree guint8 *options = g_new0 (guint8, split->n);
  gboolean better = TRUE;

  while (better && split->tries < MOST_TRIES)
    {
      better = FALSE;
      for (guint i = 0; i < split->n && split->tries < MOST_TRIES; i++)
        for (guint8 option = 0; option < N_OPTIONS; option++)
          {
            memcpy (options, split->best, split->n);
            options[i] = option;
            if (option != split->best[i])
              better |= try_way (split, options);
          }
    }
}

static void
search (Split *split)
{
  g_autofree guint8 *nothing = g_new0 (guint8, split->n + 1);

  try_way (split, nothing);
  if (split->n <= EXACT)
    {
      try_all (split);
      return;
    }
  for (guint k = split->changes->n_fitted + 1; k > 0; k--)
    {
      try_start (split, k - 1, EMPTIED);
      try_start (split, k - 1, LEFT);
    }
  climb (split);
}

static void
list_slots (Split *split)
{
  split->slots = g_new0 (guint, split->changes->n_slots + 1);
  for (guint i = 0; i < split->changes->n_slots; i++)
    {
      const LidSlotChange *change = &split->changes->slots[i];

      if (change->kind != LID_CHANGE_STAYS && (change->before != NULL || change->after != NULL))
        split->slots[split->n++] = i;
    }
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
  Split split = { .board = board, .from = as_found, .to = to, .missing = missing };
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
  search (&split);
  g_free (split.slots);
  tonight = split.population;
  if (tonight != NULL && split.value.legal && count_hands (&split, as_found, tonight) > 0)
    return tonight;
  lid_population_free (tonight);
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
               _ ("with the modules at hand nothing can be fitted tonight that helps and that "
                  "nothing stops; do all of it later"));
  return NULL;
}
