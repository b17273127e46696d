/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What rules declare, held against random populations of every platform (product.md 7).
 * Lasting: no module added to an empty slot ever clears a stops finding. Scope: what a rule says
 * of a slot depends on nothing outside that module, channel or processor. */
#include "checks-case.h"
#include "checks/rules.h"
#include "facts/label.h"

#define POPULATIONS 300

static const char *const labels[] = {
  "16GB 1Rx4 PC4-2666V-RC2-12",      "16GB 2Rx8 PC4-2666V-RE2-12",
  "32GB 2Rx4 PC4-2933Y-RB2-12",      "64GB 4DRx4 PC4-2666V-LD2-12",
  "16GB 2Rx8 PC4-2666V-EE1-12",      "128GB 2S4Rx4 PC4-2666V-RA2-12",
  "32GB 1Rx4 PC5-4800B-RC0-1010-XT", "64GB 2Rx4 PC5-4800B-RA0-1010-XT",
  "48GB 1Rx4 PC5-4800B-PF0-1010-XT", "8GB 2Rx4 PC3-10600R-09-11-E2-D2",
};

static GPtrArray *
make_pool (void)
{
  GPtrArray *pool = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_module_unref);

  for (guint i = 0; i < G_N_ELEMENTS (labels); i++)
    {
      LidLabel label;
      LidLabelFault fault;
      LidModule *module, *vague;

      g_assert_true (lid_label_parse (labels[i], -1, &label, &fault, NULL));
      module = lid_label_facts_to_module (&label);
      vague = lid_module_copy (module);
      lid_module_set (vague, (LidFact)(i % LID_N_FACTS), 0, LID_BASIS_NONE);
      lid_module_set (vague, LID_FACT_HEIGHT, 3000 + 50 * (gint32)i, LID_BASIS_TOLD);
      vague->persistent = i == 2;
      g_ptr_array_add (pool, module);
      g_ptr_array_add (pool, vague);
    }
  return pool;
}

static LidModule *
pick (GRand *rand, const GPtrArray *pool, guint favourite)
{
  guint i = (guint)g_rand_int_range (rand, 0, 3) != 0
                ? favourite
                : (guint)g_rand_int_range (rand, 0, (gint32)pool->len);

  return pool->pdata[i];
}

static LidPopulation *
populate (GRand *rand, const GPtrArray *pool, const LidBoard *board)
{
  LidPopulation *population = lid_population_new (board);
  guint favourite = (guint)g_rand_int_range (rand, 0, (gint32)pool->len);
  gint32 density = g_rand_int_range (rand, 1, 5);

  for (guint i = 0; i < board->n_slots; i++)
    if (population->slots[i].module == NULL && g_rand_int_range (rand, 0, 5) < density)
      {
        lid_population_put (population, i, pick (rand, pool, favourite));
        if (g_rand_int_range (rand, 0, 12) == 0)
          population->slots[i].state = LID_SLOT_NOT_SEEN;
      }
  if (board->n_sockets > 1 && g_rand_boolean (rand))
    population->processors[board->n_sockets - 1].fitted = FALSE;
  if (board->n_firmware > 0 && g_rand_boolean (rand))
    population->firmware
        = g_strdup (board->firmware[g_rand_int_range (rand, 0, (gint32)board->n_firmware)].level);
  return population;
}

static LidAssessment *
assess (const LidBoard *board, const LidPopulation *population)
{
  const LidQuestion question = { board, population, NULL };

  return lid_assessment_new_plain (&question);
}

static gboolean
stops (const LidAssessment *assessment, const LidRule *rule)
{
  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (finding->rule == rule && finding->grade == LID_GRADE_STOPS)
        return TRUE;
    }
  return FALSE;
}

static guint n_lasting, n_compared;

static void
add_one (GRand *rand, const GPtrArray *pool, const LidBoard *board, const LidPopulation *population)
{
  g_autoptr (LidPopulation) more = lid_population_copy (population);
  g_autoptr (LidAssessment) before = assess (board, population), after = NULL;
  guint slot = (guint)g_rand_int_range (rand, 0, (gint32)board->n_slots);

  if (more->slots[slot].module != NULL)
    return;
  lid_population_put (more, slot, pool->pdata[g_rand_int_range (rand, 0, (gint32)pool->len)]);
  after = assess (board, more);
  for (guint i = 0; lid_rules[i] != NULL; i++)
    if (lid_rules[i]->lasting && stops (before, lid_rules[i]))
      {
        n_lasting++;
        if (!stops (after, lid_rules[i]))
          g_error ("%s on %s: a module in %s cleared it", lid_rules[i]->id, board->id,
                   board->slots[slot].id);
      }
}

static gboolean
same_unit (const LidBoard *board, LidScope scope, guint a, guint b)
{
  switch (scope)
    {
    case LID_SCOPE_MODULE:
      return a == b;
    case LID_SCOPE_CHANNEL:
      return board->slots[a].channel == board->slots[b].channel;
    case LID_SCOPE_SOCKET:
      return board->slots[a].socket == board->slots[b].socket;
    case LID_SCOPE_MACHINE:
    default:
      return TRUE;
    }
}

/* What a rule says of each slot of a unit: the worst grade, as text. */
static char *
said_of_unit (const LidAssessment *assessment, const LidBoard *board, const LidRule *rule, guint of)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      for (guint k = 0; finding->rule == rule && k < finding->n_slots; k++)
        if (same_unit (board, rule->scope, finding->slots[k], of))
          g_string_append_printf (out, "%s:%s ", lid_grade_to_text (finding->grade),
                                  board->slots[finding->slots[k]].id);
    }
  return g_string_free (out, FALSE);
}

static gboolean
same_usable (
    const LidAssessment *a, const LidAssessment *b, const LidBoard *board, LidScope scope, guint of)
{
  for (guint i = 0; i < board->n_slots; i++)
    if (same_unit (board, scope, i, of) && a->unusable[i] != b->unusable[i])
      return FALSE;
  return TRUE;
}

static void
strip_others (GRand *rand, const LidBoard *board, const LidPopulation *population, LidScope scope)
{
  g_autoptr (LidPopulation) alone = lid_population_copy (population);
  g_autoptr (LidAssessment) before = assess (board, population), after = NULL;
  guint of = (guint)g_rand_int_range (rand, 0, (gint32)board->n_slots);

  for (guint i = 0; i < board->n_slots; i++)
    if (!same_unit (board, scope, i, of) && alone->slots[i].state != LID_SLOT_SOLDERED)
      lid_population_take (alone, i);
  after = assess (board, alone);
  for (guint i = 0; lid_rules[i] != NULL; i++)
    {
      const LidRule *rule = lid_rules[i];
      g_autofree char *with = NULL, *without = NULL;

      if (rule->scope != scope
          || (rule->phase > LID_PHASE_FITTED && !same_usable (before, after, board, scope, of)))
        continue;
      with = said_of_unit (before, board, rule, of);
      without = said_of_unit (after, board, rule, of);
      n_compared += *with != 0;
      if (g_strcmp0 (with, without) != 0)
        g_error ("%s on %s, around %s: “%s” with the others, “%s” alone", rule->id, board->id,
                 board->slots[of].id, with, without);
    }
}

static void
each_population (
    void (*visit) (GRand *, const GPtrArray *, const LidBoard *, const LidPopulation *))
{
  g_autofree char *folder = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) pool = make_pool ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260607);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (LidBoard) board = NULL;
      g_autoptr (GError) error = NULL;

      if (!g_str_has_suffix (name, ".json"))
        continue;
      board = lid_board_file_load (path, &error);
      g_assert_no_error (error);
      for (guint i = 0; i < POPULATIONS; i++)
        {
          g_autoptr (LidPopulation) population = populate (rand, pool, board);

          visit (rand, pool, board, population);
        }
    }
}

static void
visit_scope (GRand *rand,
             const GPtrArray *pool,
             const LidBoard *board,
             const LidPopulation *population)
{
  strip_others (rand, board, population, LID_SCOPE_MODULE);
  strip_others (rand, board, population, LID_SCOPE_CHANNEL);
  strip_others (rand, board, population, LID_SCOPE_SOCKET);
}

static void
test_lasting (void)
{
  each_population (add_one);
  g_assert_cmpuint (n_lasting, >, 500);
}

static void
test_scope (void)
{
  each_population (visit_scope);
  g_assert_cmpuint (n_compared, >, 500);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rule-declarations/lasting", test_lasting);
  g_test_add_func ("/rule-declarations/scope", test_scope);
  return g_test_run ();
}
