/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Never a silent pass: rule × fact, from each rule's own example. A fact is forgotten of the module
 * in one slot after the other, and of all of them. Then the rule still speaks, or there is an
 * unsure that names the fact, the rule that asks, and where the fact is printed. A rule declares
 * just the facts it asks for. Where neither holds, the reason is written here. */
#include "checks-case.h"
#include "checks/rules.h"
#include "help/example.h"

#include <string.h>

/* Where a rule keeps silent without a fact, another asks for it, because it decides there too; or
 * nobody does, for the reason given. Each line must be needed. */
static const struct
{
  const char *rule;
  LidFact fact;
  const LidRule *by; /* who asks; NULL: nobody */
  const char *because;
} silent[] = {
  { "slowed", LID_FACT_RATED, &lid_rule_rate_not_known,
    "without a rating there is no running rate to be slower than" },
  { "slowed", LID_FACT_KIND, &lid_rule_rate_not_known, "rows differ by kind: no running rate" },
  { "slowed", LID_FACT_RANKS, &lid_rule_rate_not_known, "rows differ by ranks: no running rate" },
  { "slowed", LID_FACT_LOGICAL_RANKS, &lid_rule_rate_not_known,
    "rows differ by ranks: no running rate" },
  { "slowed", LID_FACT_VOLTAGE, &lid_rule_rate_not_known,
    "rows differ by voltage: no running rate" },
  { "memory-mode", LID_FACT_CAPACITY, &lid_rule_mode_pairs,
    "whether the mode takes effect hangs on the pairs" },
  { "memory-mode", LID_FACT_KIND, &lid_rule_mode_pairs, "likewise" },
  { "memory-mode", LID_FACT_RANKS, &lid_rule_mode_pairs, "likewise" },
  { "memory-mode", LID_FACT_LOGICAL_RANKS, &lid_rule_mode_ranks,
    "whether the mode takes effect hangs on the ranks" },
  { "memory-mode", LID_FACT_RANKS, &lid_rule_mode_ranks,
    "likewise, where the board counts label ranks" },
  { "memory-mode", LID_FACT_CHIP_WIDTH, &lid_rule_mode_pairs, "likewise" },
  { "memory-mode", LID_FACT_CAPACITY, &lid_rule_capacity_machine,
    "what can be used of what is not told is not known" },
  { "mode-size", LID_FACT_CAPACITY, &lid_rule_capacity_machine,
    "half of what is not told is not known" },
  { "mixed-check-bits", LID_FACT_GENERATION, &lid_rule_mixed_generations, "only DDR5 differs so" },
  { "first-slot", LID_FACT_GENERATION, &lid_rule_wrong_generation,
    "whether the first slot is filled hangs on what goes into it" },
  { "mixed-voltages", LID_FACT_VOLTAGE, NULL,
    "where no module tells a voltage, none is known to be held up" },
  { "raised-voltage", LID_FACT_RANKS, &lid_rule_missing_rate_row,
    "whether a row holds hangs on the ranks" },
  { "raised-voltage", LID_FACT_LOGICAL_RANKS, &lid_rule_missing_rate_row, "likewise" },
  { "raised-voltage", LID_FACT_KIND, &lid_rule_missing_rate_row, "likewise, and on the kind" },
  { "uneven-channels", LID_FACT_LOGICAL_RANKS, NULL,
    "ranks alone make a note at most, and three of four inventories tell none: nobody is asked" },
  { "uneven-channels", LID_FACT_RANKS, NULL, "likewise" },
};

/* What a rule declares and no scene shows. Each line must be needed. */
static const struct
{
  const char *rule;
  LidFact fact;
  const char *because;
} unshown[] = {
  { "slowed", LID_FACT_RATED, "rate-not-known asks for it, see above" },
  { "cooling", LID_FACT_STACK,
    "a stack also follows from ranks and logical ranks, which are told" },
  { "mode-pairs", LID_FACT_KIND, "kinds that differ stop the machine before a mode is looked at" },
};

static gboolean silent_used[G_N_ELEMENTS (silent) + 1], unshown_used[G_N_ELEMENTS (unshown) + 1];

static gboolean
is_unshown (const LidRule *rule, LidFact fact)
{
  for (guint i = 0; i < G_N_ELEMENTS (unshown); i++)
    if (unshown[i].fact == fact && strcmp (unshown[i].rule, rule->id) == 0)
      return unshown_used[i] = TRUE;
  return FALSE;
}

static void complain (const char *format, ...) G_GNUC_PRINTF (1, 2);

/* All of them, not only the last. */
static void
complain (const char *format, ...)
{
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  g_test_message ("%s", text);
  g_test_fail ();
}

static guint
index_of (const LidRule *rule)
{
  for (guint i = 0; lid_rules[i] != NULL; i++)
    if (lid_rules[i] == rule)
      return i;
  g_assert_not_reached ();
}

static gboolean
forget (const LidBoard *board, LidPopulation *population, guint slot, LidFact fact)
{
  LidSlotState state = population->slots[slot].state;
  g_autoptr (LidModule) copy = NULL;

  if (population->slots[slot].module == NULL || board->slots[slot].soldered != NULL
      || !lid_module_knows (population->slots[slot].module, fact))
    return FALSE;
  copy = lid_module_copy (population->slots[slot].module);
  lid_module_set (copy, fact, 0, LID_BASIS_NONE);
  lid_module_set_text (&copy->part, NULL);
  lid_population_put (population, slot, copy);
  population->slots[slot].state = state;
  return TRUE;
}

/* One machine in which a rule speaks. */
typedef struct
{
  const LidRule *rule;
  LidBoard *board;
  const LidPopulation *population;
} Scene;

typedef enum
{
  SAYS_NOTHING,
  SPEAKS,
  ASKS
} Answer;

/* @fact: what was forgotten. */
static Answer
answer_of (const LidPopulation *population,
           const LidAssessment *assessment,
           const LidRule *rule,
           LidFact fact)
{
  guint index = index_of (rule);
  Answer answer = SAYS_NOTHING;

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (finding->rule == rule)
        answer = MAX (answer, SPEAKS);
      if (finding->rule != &lid_rule_unknown_facts || finding->fact != (int)fact
          || (finding->asked_by[index / 64] >> (index % 64) & 1) == 0)
        continue;
      g_assert_cmpint (finding->grade, ==, LID_GRADE_UNSURE);
      g_assert_nonnull (strstr (finding->text, lid_fact_to_words (fact)));
      g_assert_nonnull (strstr (finding->text, lid_fact_where_printed (fact)));
      for (guint k = 0; k < finding->n_slots; k++)
        if (lid_module_knows (population->slots[finding->slots[k]].module, fact))
          complain ("%s is asked for where it is told", lid_fact_to_text (fact));
      answer = ASKS;
    }
  return answer;
}

/* Ranks and logical ranks stand in for each other unless a module is stacked: they are also
 * forgotten together. So are form and kind, of which the form follows. */
static LidFact
twin_of (LidFact fact)
{
  return fact == LID_FACT_FORM            ? LID_FACT_KIND
         : fact == LID_FACT_RANKS         ? LID_FACT_LOGICAL_RANKS
         : fact == LID_FACT_LOGICAL_RANKS ? LID_FACT_RANKS
                                          : fact;
}

static guint n_asked, n_spoken;
static guint32 asked_of[LID_MOST_RULES]; /* facts a rule asked for in some scene */

/* Whether that silence is written down above, and true. */
static gboolean
is_silent (const LidPopulation *population,
           const LidAssessment *assessment,
           const LidRule *rule,
           LidFact fact)
{
  for (guint i = 0; i < G_N_ELEMENTS (silent); i++)
    if (silent[i].fact == fact && strcmp (silent[i].rule, rule->id) == 0
        && (silent[i].by == NULL || answer_of (population, assessment, silent[i].by, fact) == ASKS))
      return silent_used[i] = TRUE;
  return FALSE;
}

static void
note_asked (const LidPopulation *population, const LidAssessment *assessment, const LidRule *rule)
{
  for (guint fact = 0; fact < LID_N_FACTS; fact++)
    {
      if (answer_of (population, assessment, rule, fact) != ASKS)
        continue;
      asked_of[index_of (rule)] |= LID_FACT_BIT (fact);
      if ((rule->facts & LID_FACT_BIT (fact)) == 0)
        complain ("%s asks for %s and does not declare it", rule->id, lid_fact_to_text (fact));
    }
}

/* @only: the slot whose module forgets; LID_NOWHERE: all. */
static void
try_one (const Scene *scene, LidFact fact, LidFact also, int only)
{
  g_autoptr (LidPopulation) population = lid_population_copy (scene->population);
  const LidQuestion question = { scene->board, population, NULL };
  g_autoptr (LidAssessment) assessment = NULL;
  gboolean forgot = FALSE;
  Answer answer;

  for (guint i = 0; i < population->n_slots; i++)
    if (only == LID_NOWHERE || only == (int)i)
      {
        forgot = forget (scene->board, population, i, fact) || forgot;
        forget (scene->board, population, i, also);
      }
  if (!forgot)
    return;
  assessment = lid_assessment_new_plain (&question);
  note_asked (population, assessment, scene->rule);
  answer = MAX (answer_of (population, assessment, scene->rule, fact),
                answer_of (population, assessment, scene->rule, also));
  n_asked += answer == ASKS;
  n_spoken += answer == SPEAKS;
  if (answer == SAYS_NOTHING && !is_silent (population, assessment, scene->rule, fact)
      && !is_silent (population, assessment, scene->rule, also))
    complain ("%s: without %s%s%s it passes in silence", scene->rule->id, lid_fact_to_text (fact),
              only == LID_NOWHERE ? "" : " of ",
              only == LID_NOWHERE ? "" : scene->board->slots[only].id);
}

static gboolean
speaks (const Scene *scene)
{
  const LidQuestion question = { scene->board, scene->population, NULL };
  g_autoptr (LidAssessment) assessment = lid_assessment_new_plain (&question);

  for (guint i = 0; i < assessment->findings->len; i++)
    if (((const LidFinding *)assessment->findings->pdata[i])->rule == scene->rule)
      return TRUE;
  return FALSE;
}

static void
try_scene_so (const Scene *scene)
{
  const LidQuestion question = { scene->board, scene->population, NULL };
  g_autoptr (LidAssessment) assessment = lid_assessment_new_plain (&question);

  if (scene->rule == &lid_rule_unknown_facts)
    return;
  note_asked (scene->population, assessment, scene->rule);
  for (guint fact = 0; fact < LID_N_FACTS; fact++)
    for (int i = LID_NOWHERE; i < (int)scene->board->n_slots; i++)
      {
        try_one (scene, fact, fact, i);
        if (twin_of (fact) != (LidFact)fact)
          try_one (scene, fact, twin_of (fact), i);
      }
}

/* Both ways in which boards count ranks, where the rule speaks in either. */
static void
try_scene (const Scene *scene)
{
  LidRankCount was = scene->board->rank_count;

  if (speaks (scene))
    try_scene_so (scene);
  scene->board->rank_count = was == LID_COUNT_LABEL ? LID_COUNT_LOGICAL : LID_COUNT_LABEL;
  if (speaks (scene))
    try_scene_so (scene);
  scene->board->rank_count = was;
}

/* The case files of a rule: those in which it speaks of a population that nobody found running. */
static void
try_case (JsonObject *file, JsonObject *one, const LidRule *rule)
{
  g_autoptr (ChecksCase) c = checks_case_new (file, one);
  const Scene scene = { rule, c->figures->board, c->population };

  if (c->as_found == NULL)
    try_scene (&scene);
}

static void
try_declared (const LidRule *rule)
{
  for (guint fact = 0; fact < LID_N_FACTS; fact++)
    if ((rule->facts & LID_FACT_BIT (fact))
        && (asked_of[index_of (rule)] & LID_FACT_BIT (fact)) == 0 && !is_unshown (rule, fact))
      complain ("%s declares %s and does not ask for it", rule->id, lid_fact_to_text (fact));
}

static void
test_table (void)
{
  for (guint i = 0; lid_rules[i] != NULL; i++)
    {
      g_autoptr (LidExample) example = lid_example_new (lid_rules[i]);

      g_assert_nonnull (example);
      if (example->as_found == NULL)
        try_scene (&(Scene){ lid_rules[i], example->board, example->population });
    }
  checks_case_each (try_case);
  for (guint i = 0; lid_rules[i] != NULL; i++)
    try_declared (lid_rules[i]);
  for (guint i = 0; i < G_N_ELEMENTS (silent); i++)
    if (!silent_used[i])
      complain ("%s, %s: the reason is not needed", silent[i].rule,
                lid_fact_to_text (silent[i].fact));
  for (guint i = 0; i < G_N_ELEMENTS (unshown); i++)
    if (!unshown_used[i])
      complain ("%s, %s: its example shows it", unshown[i].rule,
                lid_fact_to_text (unshown[i].fact));
  g_test_message ("%u times asked, %u times spoken all the same", n_asked, n_spoken);
  g_assert_cmpuint (n_asked, >, 60);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/unknown-facts/table", test_table);
  return g_test_run ();
}
