/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The assessment as a whole: what a stopped machine still tells, evidence, silence of derived
 * boards, order of findings, and real platforms filled the plain way. */
#include "checks-case.h"
#include "checks/check.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "support.h"

#include <string.h>

/* Two sockets, two channels of two slots, DDR4 registered. */
#define TWO                                                                                        \
  "{\"layout\": {\"sockets\": 2, \"slots\": [2, 2]},"                                              \
  " \"board\": {\"takes\": {\"generations\": [\"DDR4\"], \"kinds\": [\"registered\"]},"            \
  " \"rates\": [{\"filled\": 1, \"mts\": 2933, \"source\": \"invented\"},"                         \
  " {\"filled\": 2, \"mts\": 2666, \"source\": \"invented\"}]},"                                   \
  " \"modules\": {\"R\": \"32GB 2Rx4 PC4-2933Y-RB2-12\", \"L\": \"64GB 4DRx4 PC4-2666V-LD2-12\","  \
  " \"X\": {\"part\": \"TRN-7\", \"capacity_mib\": 32768}}, %s}"

static LidAssessment *
assess (const FiguresCase *c)
{
  const LidQuestion question = { c->board, c->population, c->as_found };

  return lid_assessment_new (&question);
}

static const LidFinding *
find (const LidAssessment *assessment, const LidRule *rule)
{
  for (guint i = 0; i < assessment->findings->len; i++)
    if (((const LidFinding *)assessment->findings->pdata[i])->rule == rule)
      return assessment->findings->pdata[i];
  return NULL;
}

/* Settled reading 4. */
static void
test_stopped_machine (void)
{
  g_autoptr (FiguresCase) c
      = figures_case_parse (TWO, "\"put\": {\"R\": \"1-A1 2-A1\", \"L\": \"1-B1\"}");
  g_autoptr (LidAssessment) assessment = assess (c);
  const LidFigures *figures = &assessment->figures;

  g_assert_cmpint (lid_assessment_worst (assessment), ==, LID_GRADE_STOPS);
  g_assert_false (figures->starts);
  g_assert_cmpint (figures->fitted_mib, ==, 131072);
  g_assert_cmpuint (figures->running, ==, LID_RATE_UNKNOWN);
  g_assert_cmpuint (figures->n_limits, ==, 0);
  g_assert_cmpuint (figures->regions->len, ==, 0);
  g_assert_false (lid_ratio_is_known (figures->even_share));
  g_assert_cmpuint (figures->channels[figures_case_channel (c, "1-B")].modules, ==, 1);
}

/* The kind the board does not take is one cause; that two kinds meet is another. */
static void
test_findings_worst_first (void)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      TWO, "\"put\": {\"R\": \"1-A1 1-A2\", \"L\": \"1-B1\", \"X\": \"2-A1\"}");
  g_autoptr (LidAssessment) assessment = assess (c);

  g_assert_nonnull (find (assessment, &lid_rule_wrong_kind));
  g_assert_nonnull (find (assessment, &lid_rule_mixed_kinds));
  for (guint i = 1; i < assessment->findings->len; i++)
    g_assert_cmpint (((const LidFinding *)assessment->findings->pdata[i - 1])->grade, >=,
                     ((const LidFinding *)assessment->findings->pdata[i])->grade);
}

/* Figures cover what no finding stops; the rate looks at what is fitted (settled reading 1). */
static void
test_usable_part (void)
{
  g_autoptr (FiguresCase) c = figures_case_parse (TWO, "\"put\": {\"R\": \"1-A1 1-A2 1-B2 2-A1\"}");
  g_autoptr (LidAssessment) assessment = assess (c);

  g_assert_true (assessment->figures.starts);
  g_assert_cmpint (assessment->figures.fitted_mib, ==, 131072);
  g_assert_cmpint (assessment->figures.capacity_mib, ==, 98304);
  g_assert_cmpuint (lid_rate_mts (assessment->figures.running), ==, 2666);
  g_assert_cmpuint (assessment->figures.channels_in_use, ==, 2);
}

/* Read from a running machine: it started, whatever a rule says; planned, it is judged. */
static void
test_evidence (void)
{
  g_autoptr (FiguresCase) found
      = figures_case_parse (TWO, "\"put\": {\"R\": \"1-A1\", \"L\": \"1-B1\"}, \"as_found\": {}");
  g_autoptr (LidAssessment) ran = assess (found), planned = NULL;
  g_autoptr (LidPopulation) plan = lid_population_copy (found->population);
  LidQuestion question = { found->board, plan, found->as_found };

  g_assert_true (ran->figures.starts);
  g_assert_cmpint (lid_assessment_worst (ran), <, LID_GRADE_STOPS);
  g_assert_cmpint (find (ran, &lid_rule_mixed_kinds)->grade, ==, LID_GRADE_UNSURE);
  g_assert_cmpint (ran->figures.capacity_mib, ==, 98304);
  lid_population_put (plan, lid_board_find_slot (found->board, "2-A1"),
                      found->population->slots[0].module);
  planned = lid_assessment_new (&question);
  g_assert_false (planned->figures.starts);
}

/* A derived board speaks by physics only: product.md 3. */
static void
test_derived_is_silent (void)
{
  static const char *const silent[] = { "wrong-kind",       "first-slot",      "lone-module",
                                        "order-of-fitting", "larger-first",    "missing-rate-row",
                                        "rank-limit",       "capacity-module", "wrong-generation",
                                        "firmware-level" };
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"slots\": [2, 2]}, \"modules\": {\"R\": \"32GB 2Rx4 PC4-2933Y-RB2-12\","
      " \"S\": \"16GB 1Rx4 PC4-2933Y-RC2-12\"}, \"put\": {\"S\": \"1-A1\", \"R\": \"1-A2 1-B2\"}}");
  g_autoptr (LidAssessment) assessment = NULL;

  c->board->derived = TRUE;
  assessment = assess (c);
  for (guint i = 0; i < G_N_ELEMENTS (silent); i++)
    g_assert_null (find (assessment, lid_rules_find (silent[i])));
  g_assert_true (assessment->figures.starts);
}

static guint
count_unknown (const LidAssessment *assessment)
{
  guint n = 0;

  for (guint i = 0; i < assessment->findings->len; i++)
    n += ((const LidFinding *)assessment->findings->pdata[i])->rule == &lid_rule_unknown_facts;
  return n;
}

/* One unsure per fact and part number, however many slots. */
static void
test_unknown_once_per_part (void)
{
  g_autoptr (FiguresCase) few
      = figures_case_parse (TWO, "\"put\": {\"R\": \"1-A1\", \"X\": \"1-B1\"}");
  g_autoptr (FiguresCase) many
      = figures_case_parse (TWO, "\"put\": {\"R\": \"1-A1\", \"X\": \"1-B1 2-A1 2-B1\"}");
  g_autoptr (LidAssessment) one = assess (few), all = assess (many);

  g_assert_cmpuint (count_unknown (one), >, 0);
  g_assert_cmpuint (count_unknown (all), ==, count_unknown (one));
}

static void
fill_platform (const LidBoard *board, LidModule *module)
{
  g_autoptr (LidPopulation) population = lid_population_new (board);
  g_autoptr (LidAssessment) assessment = NULL;
  LidQuestion question = { board, population, NULL };

  for (guint i = 0; i < board->n_slots; i++)
    if (board->slots[i].soldered == NULL)
      lid_population_put (population, i, module);
  if (board->n_firmware > 0)
    population->firmware = g_strdup (board->firmware[board->n_firmware - 1].level);
  for (guint i = 0; i < board->n_sockets && board->n_processors > 0; i++)
    population->processors[i].model = 0;
  assessment = lid_assessment_new (&question);
  g_assert_cmpint (assessment->figures.capacity_mib, ==, assessment->figures.fitted_mib);
  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (finding->grade == LID_GRADE_STOPS || finding->rule == &lid_rule_idle_channels
          || finding->rule == &lid_rule_order_of_fitting)
        g_error ("%s: %s: %s", board->id, finding->rule->id, finding->text);
    }
}

/* Every slot of a platform filled with one module it takes: nothing stops, nothing idles. */
static void
test_platforms_filled (void)
{
  static const char *const fills[][2] = {
    { "sandpiper-t1", "16GB 2Rx8 PC4-2666V-EE1-12" },
    { "plover-r2", "32GB 2Rx4 PC4-2933Y-RB2-12" },
    { "gannet-r2", "64GB 2Rx4 PC5-4800B-RA0-1010-XT" },
    { "curlew-r2", "64GB 2Rx4 PC5-4800B-RA0-1010-XT" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (fills); i++)
    {
      g_autofree char *text
          = g_strdup_printf ("{\"platform\": \"%s\", \"modules\": {\"M\": \"%s\"},"
                             " \"put\": {\"M\": \"*\"}}",
                             fills[i][0], fills[i][1]);
      g_autoptr (FiguresCase) c = figures_case_parse ("%s", text);
      guint slot = 0;

      while (c->board->slots[slot].soldered != NULL)
        slot++;
      fill_platform (c->board, c->population->slots[slot].module);
    }
}

/* Remedies of random wrongness are values: applying one leaves the population alone. */
static void
test_remedy_is_a_copy (void)
{
  g_autoptr (FiguresCase) c = figures_case_parse (TWO, "\"put\": {\"R\": \"1-A2 1-B1 2-A1 2-B1\"}");
  g_autoptr (LidAssessment) assessment = assess (c), again = NULL;
  const LidFinding *finding = find (assessment, &lid_rule_first_slot);
  g_autoptr (LidPopulation) after = lid_remedy_apply (lid_finding_remedy (finding), c->population);
  LidQuestion question = { c->board, after, NULL };
  guint from = (guint)lid_board_find_slot (c->board, "1-A2");
  guint to = (guint)lid_board_find_slot (c->board, "1-A1");

  g_assert_nonnull (c->population->slots[from].module);
  g_assert_null (after->slots[from].module);
  /* Worked out once: who holds it may ask again. */
  g_assert_true (lid_finding_remedy (finding) == lid_finding_remedy (finding));
  g_assert_true (after->slots[to].module == c->population->slots[from].module);
  again = lid_assessment_new (&question);
  g_assert_cmpint (lid_assessment_worst (again), <, LID_GRADE_STOPS);
}

/* A slot that no order names comes after all that it names (product.md 7, "order of fitting"), and
 * without positions nobody knows which slot of a channel is the first. */
static void
test_order_and_first_slot (void)
{
  g_autoptr (FiguresCase) c = figures_case_parse (TWO, "\"put\": {\"R\": \"1-A2\"}");
  guint first = (guint)lid_board_find_slot (c->board, "1-A1");
  guint second = (guint)lid_board_find_slot (c->board, "1-A2");
  const LidQuestion question = { c->board, c->population, c->as_found };
  g_autoptr (LidSurvey) survey = NULL;
  LidCheck check;

  g_free (c->board->order);
  c->board->order = g_memdup2 (&second, sizeof second);
  c->board->n_order = 1;
  survey = lid_survey_new (c->board, c->population);
  lid_check_init (&check, &question, survey);
  for (guint i = 0; i < c->board->n_slots; i++)
    g_assert_true (i == second || check.place[i] > check.place[second]);
  g_assert_true (lid_check_behind_empty (&check, second));
  c->board->slots[first].position = c->board->slots[second].position = 0;
  g_assert_false (lid_check_behind_empty (&check, second));
  lid_check_clear (&check);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/assessment/stopped-machine", test_stopped_machine);
  g_test_add_func ("/assessment/findings-worst-first", test_findings_worst_first);
  g_test_add_func ("/assessment/usable-part", test_usable_part);
  g_test_add_func ("/assessment/evidence", test_evidence);
  g_test_add_func ("/assessment/derived-is-silent", test_derived_is_silent);
  g_test_add_func ("/assessment/unknown-once-per-part", test_unknown_once_per_part);
  g_test_add_func ("/assessment/platforms-filled", test_platforms_filled);
  g_test_add_func ("/assessment/order-and-first-slot", test_order_and_first_slot);
  g_test_add_func ("/assessment/remedy-is-a-copy", test_remedy_is_a_copy);
  return g_test_run ();
}
