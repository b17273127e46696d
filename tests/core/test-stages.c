/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-file.h"
#include "changeover/stage-parts.h"
#include "changeover/stages.h"
#include "checks/assessment.h"
#include "facts/label.h"
#include "job/changes.h"

#include <string.h>

/* What can be done tonight, against every way there is, on small random plans: the order of what is
 * better is product.md 4 and the head of stage-split.c; legality is the checker's word. */
#define ROUNDS 150u
#define MOST_CHANGED 5u

static const char *const labels[] = {
  "16GB 2Rx4 PC4-2400T-RA1-11", "32GB 2Rx4 PC4-2400T-RA1-11", "16GB 1Rx8 PC4-2666V-RD2-12",
  "16GB 2Rx8 PC4-2400T-EE1-11", /* no registered one: stops beside the others */
};

typedef struct
{
  LidBoard *board;
  GPtrArray *pool; /* owns the modules */
  LidPopulation *from, *to;
  GHashTable *missing;
} Plan;

static LidModule *
new_module (Plan *plan, GRand *rand)
{
  guint i = (guint)g_rand_int_range (rand, 0, 8);
  LidModule *module;
  LidLabel label;

  i = i < G_N_ELEMENTS (labels) ? i : 0;
  g_assert_true (lid_label_parse (labels[i], -1, &label, NULL, NULL));
  module = lid_label_facts_to_module (&label);
  module->part = g_strdup_printf ("TP-%u", i);
  module->persistent = g_rand_int_range (rand, 0, 20) == 0;
  g_ptr_array_add (plan->pool, module);
  return module;
}

static void
plan_clear (Plan *plan)
{
  lid_population_free (plan->from);
  lid_population_free (plan->to);
  g_ptr_array_unref (plan->pool);
  g_hash_table_unref (plan->missing);
}

/* Old modules stay, move or go; new ones come, some of them missing. */
static void
make_plan (Plan *plan, GRand *rand)
{
  g_autoptr (GPtrArray) free_ones = g_ptr_array_new ();

  plan->pool = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_module_unref);
  plan->from = lid_population_new (plan->board);
  plan->to = lid_population_new (plan->board);
  plan->missing = g_hash_table_new (NULL, NULL);
  plan->from->processors[0].fitted = plan->to->processors[0].fitted = TRUE;
  plan->from->firmware = g_strdup ("2.2");
  plan->to->firmware = g_strdup ("2.2");
  for (guint i = 0; i < plan->board->n_slots; i++)
    if (g_rand_boolean (rand))
      {
        LidModule *module = new_module (plan, rand);

        lid_population_put (plan->from, i, module);
        if (g_rand_int_range (rand, 0, 4) > 0)
          lid_population_put (plan->to, i, module);
        else
          g_ptr_array_add (free_ones, module);
      }
  for (guint i = 0; i < plan->board->n_slots; i++)
    if (plan->to->slots[i].module == NULL && g_rand_int_range (rand, 0, 3) == 0)
      {
        gboolean old = free_ones->len > 0 && g_rand_boolean (rand);
        LidModule *module = old ? g_ptr_array_steal_index (free_ones, 0) : new_module (plan, rand);

        lid_population_put (plan->to, i, module);
        if (!old && g_rand_boolean (rand))
          g_hash_table_add (plan->missing, module);
      }
}

/* As good as: the most memory and bandwidth, the fewest touches and losses, in this order; written
 * again. */
typedef struct
{
  gboolean legal;
  gint64 usable;
  LidRatio whole;
  guint hands, loses, later;
} Worth;

static guint
hands_between (const Plan *plan, const LidPopulation *a, const LidPopulation *b)
{
  g_autoptr (LidChanges) changes = lid_changes_new (plan->board, a, b);

  return changes->hands;
}

static Worth
worth_of (const Plan *plan, const LidPopulation *population)
{
  LidQuestion question = { plan->board, population, plan->from };
  g_autoptr (LidAssessment) assessment = lid_assessment_new (&question);
  Worth worth = { 0 };

  worth.legal = assessment->figures.starts && lid_assessment_worst (assessment) != LID_GRADE_STOPS;
  worth.usable = assessment->figures.usable_mib;
  worth.whole = assessment->figures.whole_mbs;
  if (!lid_ratio_is_known (worth.whole))
    worth.whole = assessment->figures.even_share;
  for (guint i = 0; i < assessment->findings->len; i++)
    worth.loses += ((LidFinding *)assessment->findings->pdata[i])->grade == LID_GRADE_LOSES;
  worth.later = hands_between (plan, population, plan->to);
  worth.hands = worth.later + hands_between (plan, plan->from, population);
  return worth;
}

/* Above 0: @a is better. */
static int
compare (const Worth *a, const Worth *b)
{
  int whole = 0;

  if (!a->legal || !b->legal)
    return a->legal - b->legal;
  if (a->usable != b->usable)
    return a->usable > b->usable ? 1 : -1;
  if (lid_ratio_is_known (a->whole) && lid_ratio_is_known (b->whole))
    whole = lid_ratio_compare (a->whole, b->whole);
  if (whole != 0)
    return whole;
  if (a->hands != b->hands)
    return a->hands < b->hands ? 1 : -1;
  if (a->loses != b->loses)
    return a->loses < b->loses ? 1 : -1;
  return (a->later < b->later) - (a->later > b->later);
}

typedef struct
{
  const Plan *plan;
  const LidChanges *changes;
  LidPopulation *population;
  GHashTable *used;
  Worth best;
} Search;

static gboolean
alike (const LidModule *a, const LidModule *b)
{
  return a == b || (!a->persistent && !b->persistent && lid_module_same (a, b));
}

static void try_slot (Search *search, guint slot);

static void
try_module (Search *search, guint slot, LidModule *module)
{
  if (g_hash_table_contains (search->used, module)
      || g_hash_table_contains (search->plan->missing, module))
    return;
  g_hash_table_add (search->used, module);
  lid_population_put (search->population, slot, module);
  try_slot (search, slot + 1);
  lid_population_take (search->population, slot);
  g_hash_table_remove (search->used, module);
}

/* Every module that may sit in every slot the plan changes. */
static void
try_slot (Search *search, guint slot)
{
  const Plan *plan = search->plan;
  LidModule *before, *after;

  if (slot == plan->board->n_slots)
    {
      Worth worth = worth_of (plan, search->population);

      if (compare (&worth, &search->best) > 0)
        search->best = worth;
      return;
    }
  if (search->changes->slots[slot].kind == LID_CHANGE_STAYS)
    {
      try_slot (search, slot + 1);
      return;
    }
  before = plan->from->slots[slot].module;
  after = plan->to->slots[slot].module;
  lid_population_take (search->population, slot);
  try_slot (search, slot + 1);
  if (before != NULL)
    try_module (search, slot, before);
  for (guint i = 0; after != NULL && i < plan->pool->len; i++)
    if (plan->pool->pdata[i] != before && alike (plan->pool->pdata[i], after))
      try_module (search, slot, plan->pool->pdata[i]);
}

static Worth
best_of_all (const Plan *plan, const LidChanges *changes)
{
  Search search = { plan, changes, lid_population_copy (plan->to), NULL, { .hands = G_MAXUINT } };

  search.used = g_hash_table_new (NULL, NULL);
  for (guint i = 0; i < plan->board->n_slots; i++)
    if (changes->slots[i].kind == LID_CHANGE_STAYS)
      {
        LidModule *module = plan->from->slots[i].module;

        lid_population_put (search.population, i, module);
        g_hash_table_add (search.used, module);
      }
  try_slot (&search, 0);
  g_hash_table_unref (search.used);
  lid_population_free (search.population);
  return search.best;
}

/* Nothing missing is used, nothing is in two places. */
static void
check_modules (const Plan *plan, const LidPopulation *tonight)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < tonight->n_slots; i++)
    if (tonight->slots[i].module != NULL)
      {
        g_assert_false (g_hash_table_contains (plan->missing, tonight->slots[i].module));
        g_assert_true (g_hash_table_add (seen, tonight->slots[i].module));
      }
}

static gboolean
check_plan (const Plan *plan)
{
  g_autoptr (LidChanges) changes = lid_changes_new (plan->board, plan->from, plan->to);
  g_autoptr (LidPopulation) tonight = NULL;
  guint n_changed = 0;
  Worth best, mine;

  for (guint i = 0; i < changes->n_slots; i++)
    n_changed += changes->slots[i].kind != LID_CHANGE_STAYS
                 && (changes->slots[i].before != NULL || changes->slots[i].after != NULL);
  if (n_changed > MOST_CHANGED || g_hash_table_size (plan->missing) == 0)
    return FALSE;
  best = best_of_all (plan, changes);
  tonight = lid_stage_split (plan->board, plan->from, plan->to, plan->missing, NULL);
  if (tonight == NULL)
    {
      /* Doing nothing is then as good as it gets, or nothing at all is legal. */
      mine = worth_of (plan, plan->from);
      g_assert_true (!best.legal || compare (&best, &mine) <= 0);
      return TRUE;
    }
  check_modules (plan, tonight);
  mine = worth_of (plan, tonight);
  g_assert_true (mine.legal);
  g_assert_cmpint (compare (&best, &mine), ==, 0);
  return TRUE;
}

static LidBoard *
load (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", name, NULL);
  g_autoptr (GError) error = NULL;
  LidBoard *board = lid_board_file_load (path, &error);

  g_assert_no_error (error);
  return board;
}

static void
test_every_way (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20261130);
  g_autoptr (LidBoard) board = load ("tern-w4.json");
  guint n = 0;

  for (guint i = 0; n < ROUNDS && i < 100 * ROUNDS; i++)
    {
      Plan plan = { .board = board };

      make_plan (&plan, rand);
      n += check_plan (&plan);
      plan_clear (&plan);
    }
  g_assert_cmpuint (n, ==, ROUNDS);
}

/* Soldered memory is no part, also where it was read and is not the board's own. */
static void
test_soldered (void)
{
  g_autoptr (LidBoard) board = load ("dunlin-s1.json");
  g_autoptr (LidJob) job = lid_job_new (board);
  g_autoptr (GPtrArray) parts = NULL;
  LidStage *stage = g_new0 (LidStage, 1);
  guint n = 0;

  job->as_found = lid_population_new (board);
  stage->population = lid_population_new (board);
  g_ptr_array_add (job->stages, stage);
  for (guint i = 0; i < board->n_slots; i++)
    if (board->slots[i].soldered != NULL)
      {
        lid_module_unref (job->as_found->slots[i].module);
        job->as_found->slots[i].module = lid_module_copy (board->slots[i].soldered);
        n++;
      }
  g_assert_cmpuint (n, >, 0);
  parts = lid_stage_parts_new (job);
  g_assert_cmpuint (parts->len, ==, 0);
}

/* Every way is tried of up to eight slots (the head of stage-split.c). */
static void
test_exact_up_to (void)
{
  g_autoptr (LidBoard) board = load ("plover-r2.json");

  for (guint n = 7; n <= 10; n++)
    {
      g_autoptr (LidJob) job = lid_job_new (board);
      LidStage *stage = g_new0 (LidStage, 1);

      job->as_found = lid_population_new (board);
      stage->population = lid_population_new (board);
      for (guint i = 0; i < n; i++)
        {
          LidModule *module = lid_module_new ();

          module->id = g_strdup_printf ("m%u", i + 1);
          lid_population_put (stage->population, i, lid_job_add_module (job, module));
        }
      g_ptr_array_add (job->stages, stage);
      g_assert_cmpint (lid_stages_every_way (job), ==, n <= 8);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stages/every-way", test_every_way);
  g_test_add_func ("/stages/exact-up-to", test_exact_up_to);
  g_test_add_func ("/stages/soldered", test_soldered);
  return g_test_run ();
}
