/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every rule by its cases, found by scan: tests/cases/checks/<rule>.json or <rule>-WORD.json. A
 * case says what its rule finds; a positive one must fail when the rule is taken out of the table;
 * a remedy that moves modules must clear its finding; a needed fact forgotten must never pass in
 * silence. */
#include "checks-case.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "support.h"

#include <string.h>

static const char *
name_of (const JsonObject *one)
{
  return json_object_get_string_member ((JsonObject *)one, "case");
}

/* "stops slots: 1-A2", one line a finding of the rule. */
static char *
write_findings (const ChecksCase *c, const LidAssessment *assessment, const LidRule *rule)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];
      g_autofree char *slots
          = checks_case_slots (c->figures->board, finding->slots, finding->n_slots);
      const char *stops = lid_stops_to_text (finding->stops);

      if (finding->rule == rule)
        g_string_append_printf (out, "%s%s%s: %s\n", lid_grade_to_text (finding->grade),
                                stops != NULL ? " " : "", stops != NULL ? stops : "", slots);
    }
  return g_string_free (out, FALSE);
}

/* What a rule declares of its grades is what it does: the catalogue of rules says no more and no
 * less. */
static void
check_declared (const LidFinding *finding)
{
  const LidRule *rule = finding->rule;
  gboolean declared = (rule->grades & LID_GRADE_BIT (finding->grade)) != 0;
  gboolean may_stop = (rule->grades & LID_GRADE_BIT (LID_GRADE_STOPS)) != 0 || rule->board_decides;
  gboolean doubted = finding->grade == LID_GRADE_UNSURE && may_stop;

  if (!declared && !rule->board_decides && !doubted)
    g_test_fail_printf ("%s says %s and does not declare it", rule->id,
                        lid_grade_to_text (finding->grade));
  if (finding->grade == LID_GRADE_STOPS && !rule->board_decides)
    g_assert_cmpint (finding->stops, ==, rule->stops);
}

static void
check_sentences (const LidAssessment *assessment)
{
  static const char *const never[]
      = { "compatible",  "supported", "certified",     "qualified", "validated",
          "recommended", "optimal",   "best practice", "score",     "MHz" };

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      check_declared (finding);
      g_assert_nonnull (finding->text);
      g_assert_true (g_str_has_suffix (finding->text, "."));
      g_assert_nonnull (finding->basis);
      g_assert_nonnull (finding->source);
      g_assert_cmpint (finding->grade == LID_GRADE_STOPS, ==, finding->stops != LID_STOPS_NOTHING);
      for (guint k = 0; k < G_N_ELEMENTS (never); k++)
        g_assert_null (strstr (finding->text, never[k]));
      if (i > 0)
        g_assert_cmpint (((const LidFinding *)assessment->findings->pdata[i - 1])->grade, >=,
                         finding->grade);
    }
}

/* How much the rule finds of at least that grade. */
static guint
count (const LidAssessment *assessment, const LidRule *rule, LidGrade grade)
{
  guint n = 0;

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      n += finding->rule == rule && finding->grade >= grade;
    }
  return n;
}

/* Carried out, no slot takes two. */
static void
check_places (const LidRemedy *remedy, JsonObject *one)
{
  g_autoptr (GHashTable) taken = g_hash_table_new (NULL, NULL);

  for (guint k = 0; k < remedy->moves->len; k++)
    {
      int to = g_array_index (remedy->moves, LidMove, k).to;

      if (to != LID_NOWHERE && !g_hash_table_add (taken, GINT_TO_POINTER (to)))
        g_test_fail_printf ("%s: two modules are sent to one slot", name_of (one));
    }
}

static void
apply_remedies (const ChecksCase *c, const LidAssessment *assessment, JsonObject *one)
{
  guint n_moves = 0;

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];
      ChecksCase after = *c;
      g_autoptr (LidPopulation) cured = NULL;
      g_autoptr (LidAssessment) again = NULL;

      if (finding->remedy == NULL || finding->remedy->moves->len == 0)
        continue;
      g_assert_nonnull (finding->remedy->text);
      n_moves += finding->remedy->moves->len;
      check_places (finding->remedy, one);
      cured = lid_remedy_apply (finding->remedy, c->population);
      after.population = cured;
      again = checks_case_assess (&after, NULL);
      if (count (again, finding->rule, finding->grade)
          >= count (assessment, finding->rule, finding->grade))
        g_test_fail_printf ("%s: the remedy of %s does not clear it", name_of (one),
                            finding->rule->id);
    }
  if (json_object_has_member (one, "remedy")
      && json_object_get_boolean_member (one, "remedy") != (n_moves > 0))
    g_test_fail_printf ("%s: moves offered: %u", name_of (one), n_moves);
  if (json_object_has_member (one, "moves")
      && json_object_get_int_member (one, "moves") != (gint64)n_moves)
    g_test_fail_printf ("%s: so many moves are offered: %u", name_of (one), n_moves);
}

/* No two findings send one module to two places. */
static void
check_agreement (const LidAssessment *assessment, JsonObject *one)
{
  g_autoptr (GHashTable) to = g_hash_table_new (NULL, NULL);

  if (!json_object_get_boolean_member_with_default (one, "agree", FALSE))
    return;
  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidRemedy *remedy = ((const LidFinding *)assessment->findings->pdata[i])->remedy;

      for (guint k = 0; remedy != NULL && k < remedy->moves->len; k++)
        {
          const LidMove *move = &g_array_index (remedy->moves, LidMove, k);
          gpointer before;

          if (move->from != LID_NOWHERE
              && g_hash_table_lookup_extended (to, GINT_TO_POINTER (move->from), NULL, &before)
              && GPOINTER_TO_INT (before) != move->to)
            g_test_fail_printf ("%s: a module is sent to two places", name_of (one));
          g_hash_table_insert (to, GINT_TO_POINTER (move->from), GINT_TO_POINTER (move->to));
        }
    }
}

/* The words of what is offered for the first finding of the file's rule. */
static void
check_remedy_words (const LidFinding *first, JsonObject *one)
{
  const char *words = json_object_get_string_member_with_default (one, "remedy_says", NULL);
  const char *offered = first != NULL && first->remedy != NULL ? first->remedy->text : "";

  if (words != NULL && (*words != 0 ? strstr (offered, words) == NULL : *offered != 0))
    g_test_fail_printf ("%s: offered: “%s”", name_of (one), offered);
  if (strstr (offered, json_object_get_string_member_with_default (one, "remedy_never", "\n")))
    g_test_fail_printf ("%s: offered: “%s”", name_of (one), offered);
}

static void
check_rest (const ChecksCase *c, const LidAssessment *assessment, JsonObject *one)
{
  checks_case_expect_machine (assessment, one);
  if (json_object_has_member (one, "unusable"))
    {
      g_autofree guint *slots = g_new (guint, c->figures->board->n_slots + 1);
      guint n = 0;
      g_autofree char *text = NULL;

      for (guint i = 0; i < c->figures->board->n_slots; i++)
        if (assessment->unusable[i])
          slots[n++] = i;
      text = checks_case_slots (c->figures->board, slots, n);
      if (!g_str_equal (text, json_object_get_string_member (one, "unusable")))
        g_test_fail_printf ("%s: unusable: “%s”", name_of (one), text);
    }
  if (json_object_has_member (one, "says") || json_object_has_member (one, "never")
      || json_object_has_member (one, "told_by") || json_object_has_member (one, "remedy_says"))
    {
      const LidFinding *first = NULL;
      g_autofree char *id = g_strdup (json_object_get_string_member (one, "rule"));

      for (guint i = 0; first == NULL && i < assessment->findings->len; i++)
        if (strcmp (((const LidFinding *)assessment->findings->pdata[i])->rule->id, id) == 0)
          first = assessment->findings->pdata[i];
      if (first == NULL
          || strstr (first->text, json_object_get_string_member_with_default (one, "says", ""))
                 == NULL
          || strstr (first->text, json_object_get_string_member_with_default (one, "never", "\n"))
          || strstr (first->source, json_object_get_string_member_with_default (one, "told_by", ""))
                 == NULL)
        g_test_fail_printf ("%s: “%s”, told by “%s”", name_of (one),
                            first != NULL ? first->text : "", first != NULL ? first->source : "");
      check_remedy_words (first, one);
    }
}

/* Without remedies the same is found. */
static void
check_plain (const ChecksCase *c, const LidAssessment *assessment)
{
  const LidQuestion question = { c->figures->board, c->population, c->as_found };
  g_autoptr (LidAssessment) plain = lid_assessment_new_plain (&question);

  g_assert_cmpuint (plain->findings->len, ==, assessment->findings->len);
  for (guint i = 0; i < plain->findings->len; i++)
    {
      const LidFinding *one = plain->findings->pdata[i], *other = assessment->findings->pdata[i];

      g_assert_null (one->remedy);
      g_assert_cmpstr (one->text, ==, other->text);
      g_assert_cmpint (one->grade, ==, other->grade);
    }
}

static void
check_asked (const ChecksCase *c, const LidAssessment *assessment, JsonObject *one)
{
  g_autofree char *asked = checks_case_asked (c, assessment), *wanted = NULL;

  if (!json_object_has_member (one, "asked"))
    return;
  wanted = checks_case_lines (one, "asked");
  if (strcmp (asked, wanted) != 0)
    g_test_fail_printf ("%s: asked for\n%swanted\n%s", name_of (one), asked, wanted);
}

static void
run_case (JsonObject *file, JsonObject *one, const LidRule *rule)
{
  g_autoptr (ChecksCase) c = checks_case_new (file, one);
  g_autoptr (LidAssessment) assessment = checks_case_assess (c, NULL);
  g_autofree char *expected = checks_case_lines (one, "expect");
  g_autofree char *found = write_findings (c, assessment, rule);

  if (strcmp (expected, found) != 0)
    g_test_fail_printf ("%s: %s\nexpected\n%sfound\n%s", rule->id, name_of (one), expected, found);
  json_object_set_string_member (one, "rule", rule->id);
  check_asked (c, assessment, one);
  check_sentences (assessment);
  check_rest (c, assessment, one);
  apply_remedies (c, assessment, one);
  check_agreement (assessment, one);
  check_plain (c, assessment);
  if (*expected != 0)
    {
      g_autoptr (LidAssessment) blind = checks_case_assess (c, rule);
      g_autofree char *nothing = write_findings (c, blind, rule);

      g_assert_cmpstr (nothing, !=, expected);
    }
}

static LidModule *
forget (const LidModule *module, LidFact fact)
{
  LidModule *copy = lid_module_copy (module);

  lid_module_set (copy, fact, 0, LID_BASIS_NONE);
  lid_module_set_text (&copy->part, NULL);
  return copy;
}

/* Facts that follow from others, so that forgetting one alone hides nothing. */
static gboolean
is_backed (const LidModule *module, LidFact fact)
{
  return fact == LID_FACT_FORM && lid_module_kind (module) != LID_KIND_UNKNOWN;
}

static void
forget_fact (const ChecksCase *c,
             const LidRule *rule,
             const LidFinding *finding,
             LidFact fact,
             const char *name)
{
  ChecksCase blind = *c;
  g_autoptr (LidPopulation) population = lid_population_copy (c->population);
  g_autoptr (LidAssessment) assessment = NULL;
  gboolean loud = FALSE;

  for (guint i = 0; i < finding->n_slots; i++)
    {
      const LidModule *module = population->slots[finding->slots[i]].module;
      LidSlotState state = population->slots[finding->slots[i]].state;
      g_autoptr (LidModule) forgot = NULL;

      if (module == NULL || state == LID_SLOT_SOLDERED || is_backed (module, fact))
        return;
      forgot = forget (module, fact);
      lid_population_put (population, finding->slots[i], forgot);
      population->slots[finding->slots[i]].state = state;
    }
  blind.population = population;
  assessment = checks_case_assess (&blind, NULL);
  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *now = assessment->findings->pdata[i];

      loud = loud || now->rule == rule
             || (now->grade == LID_GRADE_UNSURE && now->rule == &lid_rule_unknown_facts);
    }
  if (!loud)
    g_test_fail_printf ("%s: %s: without %s it passes in silence", rule->id, name,
                        lid_fact_to_text (fact));
}

/* Rule × needed fact unknown: unsure, never a silent pass. */
static void
forget_facts (JsonObject *file, JsonObject *one, const LidRule *rule)
{
  g_autoptr (ChecksCase) c = checks_case_new (file, one);
  g_autoptr (LidAssessment) assessment = checks_case_assess (c, NULL);

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (finding->rule != rule || finding->n_slots == 0)
        continue;
      for (guint fact = 0; fact < LID_N_FACTS; fact++)
        if (rule->facts & LID_FACT_BIT (fact))
          forget_fact (c, rule, finding, fact, name_of (one));
    }
}

static void
test_cases (void)
{
  checks_case_each (run_case);
}

static void
test_unknown_facts (void)
{
  checks_case_each (forget_facts);
}

static guint n_positive[LID_MOST_RULES], n_negative[LID_MOST_RULES];

static void
count_case (JsonObject *file, JsonObject *one, const LidRule *rule)
{
  for (guint i = 0; lid_rules[i] != NULL; i++)
    if (lid_rules[i] == rule)
      {
        if (json_array_get_length (json_object_get_array_member (one, "expect")) > 0)
          n_positive[i]++;
        else
          n_negative[i]++;
      }
}

static void
test_every_rule_has_cases (void)
{
  checks_case_each (count_case);
  for (guint i = 0; lid_rules[i] != NULL; i++)
    {
      if (n_positive[i] == 0 || n_negative[i] == 0)
        g_test_fail_printf ("%s: %u cases that find, %u that do not", lid_rules[i]->id,
                            n_positive[i], n_negative[i]);
      g_assert_cmpstr (lid_rules[i]->source, !=, "");
      g_assert_true (lid_rules_find (lid_rules[i]->id) == lid_rules[i]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rules/cases", test_cases);
  g_test_add_func ("/rules/unknown-facts", test_unknown_facts);
  g_test_add_func ("/rules/every-rule-has-cases", test_every_rule_has_cases);
  return g_test_run ();
}
