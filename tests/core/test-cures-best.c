/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Of the ways to move that checks/cure.h promises, the best by the order checks/cure.c states is
 * offered, and none only where none of them clears the finding: held against ways and order written
 * a second time (support/cures-deals.c, cures-oracle.c), on the boards and modules of every case of
 * the checker, as the case has them and put at random, with a tray. */
#include "base/units.h"
#include "checks-case.h"
#include "checks/assessment-private.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "cures-oracle.h"

#include <string.h>

/* Under the sanitizers fewer: what is asked there is whether memory is read as it should be. */
#ifdef __SANITIZE_ADDRESS__
#define SHUFFLES 2
#else
#define SHUFFLES 5
#endif

static GRand *dice;
static guint n_best, n_none, n_over, n_least, n_belied, n_set;

static char *
write_moves (const LidBoard *board, const GArray *moves)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; moves != NULL && i < moves->len; i++)
    {
      const LidMove *move = &g_array_index (moves, LidMove, i);

      g_string_append_printf (out, " %s>%s", move->from >= 0 ? board->slots[move->from].id : "tray",
                              move->to >= 0 ? board->slots[move->to].id : "tray");
    }
  return g_string_free (out, FALSE);
}

/* No module goes to two places, no place takes two, none is sent where it is. */
static void
check_shape (const LidFinding *finding)
{
  const GArray *moves = finding->remedy->moves;

  for (guint i = 0; i < moves->len; i++)
    for (guint k = 0; k <= i; k++)
      {
        const LidMove *x = &g_array_index (moves, LidMove, i),
                      *y = &g_array_index (moves, LidMove, k);

        if (x->from == x->to || (i != k && x->from >= 0 && x->from == y->from)
            || (i != k && x->to >= 0 && x->to == y->to)
            || (i != k && x->from < 0 && y->from < 0 && x->module == y->module))
          g_error ("%s: “%s” moves one thing twice", finding->rule->id, finding->remedy->text);
      }
}

/* Takes @then and @now. */
static void
add_price (GString *price, const char *format, char *then, char *now)
{
  const char *const values[] = { then, now };
  guint n = 0;

  g_string_append_c (price, ' ');
  for (const char *c = format; *c != 0; c++)
    if (*c == '#')
      g_string_append (price, values[n++]);
    else
      g_string_append_c (price, *c);
  g_free (then);
  g_free (now);
}

/* What it lowers it says, and nothing else. */
static void
check_price (const CuresOracle *oracle, const LidFinding *finding, const LidAssessment *after)
{
  const LidFigures *was = &oracle->planned->figures, *is = &after->figures;
  g_autoptr (GString) price = g_string_new (NULL);
  const char *text = finding->remedy->text;

  if (was->usable_known && is->usable_known && is->usable_mib < was->usable_mib)
    add_price (price, "Of the memory # is then usable, not #.", lid_units_capacity (is->usable_mib),
               lid_units_capacity (was->usable_mib));
  if (is->running != LID_RATE_UNKNOWN && is->running < was->running)
    add_price (price, "It then runs at #, not at #.", lid_units_rate (is->running),
               lid_units_rate (was->running));
  if (lid_ratio_is_known (is->whole_mbs) && lid_ratio_is_known (was->whole_mbs)
      && lid_ratio_compare (was->whole_mbs, is->whole_mbs) > 0)
    add_price (price, "Reading all of it then reaches #, not #.",
               lid_units_bandwidth (lid_ratio_round (is->whole_mbs)),
               lid_units_bandwidth (lid_ratio_round (was->whole_mbs)));
  else if (lid_ratio_is_known (is->worst_mbs) && lid_ratio_is_known (was->worst_mbs)
           && lid_ratio_compare (was->worst_mbs, is->worst_mbs) > 0)
    add_price (price, "Its slowest part is then read at #, not at #.",
               lid_units_bandwidth (lid_ratio_round (is->worst_mbs)),
               lid_units_bandwidth (lid_ratio_round (was->worst_mbs)));
  if (!g_str_has_suffix (text, price->str)
      || (price->len == 0
          && (strstr (text, "is then usable") || strstr (text, "It then runs")
              || strstr (text, "Reading all of it then")
              || strstr (text, "Its slowest part is then"))))
    g_error ("%s: “%s” should say the price “%s”", finding->rule->id, text, price->str);
}

static gboolean
only_takes_out (const GArray *moves)
{
  for (guint i = 0; i < moves->len; i++)
    if (g_array_index (moves, LidMove, i).to != LID_NOWHERE)
      return FALSE;
  return TRUE;
}

/* Of those left empty none can be spared. */
static void
check_least (const CuresOracle *oracle, const LidFinding *finding)
{
  const GArray *moves = finding->remedy->moves;

  for (guint i = 0; moves->len > 1 && i < moves->len; i++)
    {
      g_autoptr (GArray) fewer = g_array_copy ((GArray *)moves);
      g_autoptr (CuresTry) one = NULL;

      g_array_remove_index (fewer, i);
      one = cures_try_new (oracle, fewer);
      if (one->after->figures.starts && cures_oracle_clears (oracle, finding, one, FALSE))
        g_error ("%s: “%s” empties more than it takes", finding->rule->id, finding->remedy->text);
    }
  n_least++;
}

static gboolean
disagree (const GArray *a, const GArray *b)
{
  for (guint i = 0; i < a->len; i++)
    for (guint k = 0; k < b->len; k++)
      {
        const LidMove *x = &g_array_index (a, LidMove, i), *y = &g_array_index (b, LidMove, k);

        if (x->from >= 0 && x->from == y->from && x->to != y->to)
          return TRUE;
      }
  return FALSE;
}

/* The moves of a finding that spoke before, is no lighter, sends one of these modules elsewhere and
 * is cleared with it: they stand for both. NULL: there is none. */
static const GArray *
stands_for_both (const CuresOracle *oracle,
                 const LidAssessment *in,
                 guint index,
                 const GArray *moves)
{
  const LidFinding *finding = in->findings->pdata[index];
  const GArray *found = NULL;
  guint first = 0;

  for (guint i = 0; i < in->findings->len; i++)
    {
      const LidFinding *other = in->findings->pdata[i];
      g_autoptr (CuresTry) one = NULL;

      if (i == index || other->grade < finding->grade || other->remedy == NULL
          || !cures_speaks_before (in, i, index) || !disagree (other->remedy->moves, moves)
          || (found != NULL && !cures_speaks_before (in, i, first)))
        continue;
      one = cures_try_new (oracle, other->remedy->moves);
      if (!cures_oracle_clears (oracle, finding, one, TRUE))
        continue;
      found = other->remedy->moves;
      first = i;
    }
  return found;
}

/* Whether the offer may be its rule's own: such rules give whole rearrangements themselves. */
static gboolean
rule_moves (const LidRule *rule)
{
  return rule == &lid_rule_first_slot || rule == &lid_rule_larger_first
         || rule == &lid_rule_lone_module || rule == &lid_rule_mode_pairs
         || rule == &lid_rule_order_of_fitting;
}

static void
check_best (const CuresOracle *oracle, const LidAssessment *in, guint index)
{
  const LidFinding *finding = in->findings->pdata[index];
  const GArray *offered = finding->remedy != NULL ? finding->remedy->moves : NULL;
  gboolean any = offered != NULL && offered->len > 0;
  g_autoptr (CuresTry) best
      = finding->grade != LID_GRADE_NOTE ? cures_oracle_best (oracle, finding) : NULL;
  const GArray *expected = best != NULL ? best->moves : NULL, *both;
  g_autofree char *is = write_moves (oracle->question->board, offered), *should = NULL;

  if (best == NULL && !any)
    n_none++;
  if (any && (rule_moves (finding->rule) || best == NULL)
      && !(best == NULL && !only_takes_out (offered) && !rule_moves (finding->rule)))
    return;
  both = expected != NULL ? stands_for_both (oracle, in, index, expected) : NULL;
  n_over += both != NULL;
  expected = both != NULL ? both : expected;
  should = write_moves (oracle->question->board, expected);
  if (expected == NULL ? any : !any || !cures_same_moves (expected, offered))
    {
      for (guint i = 0; expected == NULL && i < in->findings->len; i++)
        if (i != index && ((LidFinding *)in->findings->pdata[i])->remedy != NULL
            && cures_same_moves (((LidFinding *)in->findings->pdata[i])->remedy->moves, offered))
          return;
      g_error ("%s: %s: offered%s, the best is%s", oracle->question->board->id, finding->rule->id,
               is, should);
    }
  n_best += expected != NULL;
}

/* Memory was seen behind a processor that is told as absent: nothing may be moved before that is
 * said right. */
static gboolean
is_belied (const LidQuestion *question)
{
  const LidPopulation *population = question->population;

  for (guint i = 0; i < population->n_slots; i++)
    if (question->board->slots[i].socket != LID_NOWHERE && lid_population_shows (population, i)
        && !population->processors[question->board->slots[i].socket].fitted)
      return lid_population_is_evidence (population, question->as_found);
  return FALSE;
}

/* Whether another finding's moves stand for this one too. */
static gboolean
is_shared (const LidAssessment *in, const LidFinding *finding)
{
  guint n = 0;

  for (guint i = 0; i < in->findings->len; i++)
    {
      const LidFinding *other = in->findings->pdata[i];

      n += other->remedy != NULL && cures_same_moves (other->remedy->moves, finding->remedy->moves);
    }
  return n > 1;
}

/* Whether setup's voltage, which is the cause of some finding, is the cause of this one too. */
static gboolean
goes_with_setting (const CuresOracle *oracle, const LidFinding *finding)
{
  g_autoptr (LidPopulation) automatic = lid_population_copy (oracle->question->population);
  g_autoptr (LidAssessment) after = NULL;
  gboolean set = FALSE;

  for (guint i = 0; i < oracle->seen->findings->len; i++)
    {
      const LidRemedy *remedy = ((LidFinding *)oracle->seen->findings->pdata[i])->remedy;

      set = set || (remedy != NULL && strstr (remedy->text, "Set the memory voltage") != NULL);
    }
  automatic->setup_mv = 0;
  after = lid_assessment_new_plain (
      &(LidQuestion){ oracle->question->board, automatic, oracle->question->as_found });
  return set && cures_oracle_clears (oracle, finding, &(CuresTry){ NULL, after, 0 }, FALSE);
}

static void
try_population (const LidQuestion *question, const GPtrArray *tray)
{
  g_autoptr (LidAssessment) seen = lid_assessment_new_how (
      question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NOW, .at_hand = tray });
  g_autoptr (LidAssessment) planned = lid_assessment_new_how (
      question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NEVER, .only_planned = TRUE });
  g_autoptr (GPtrArray) all = cures_all_tried (question);
  const CuresOracle oracle = { question, tray, seen, planned, all };
  LidGrade worst = LID_GRADE_NOTE;

  for (guint i = 0; i < seen->findings->len; i++)
    {
      const LidFinding *finding = seen->findings->pdata[i];

      g_assert_true (goes_with_setting (&oracle, finding)
                     == (finding->remedy != NULL && finding->remedy->by_setting));
      n_set += finding->remedy != NULL && finding->remedy->by_setting;
      if (finding->remedy != NULL && finding->remedy->by_setting)
        continue;
      if (is_belied (question))
        {
          g_assert_true (finding->remedy == NULL || finding->remedy->moves->len == 0);
          n_belied++;
          continue;
        }
      if (finding->remedy != NULL && finding->remedy->moves->len > 0)
        {
          g_autoptr (CuresTry) offered = cures_try_new (&oracle, finding->remedy->moves);

          check_shape (finding);
          if (!cures_oracle_clears (&oracle, finding, offered, FALSE))
            g_error ("%s: “%s” does not clear it", finding->rule->id, finding->remedy->text);
          check_price (&oracle, finding, offered->after);
          if (only_takes_out (finding->remedy->moves) && !is_shared (seen, finding))
            check_least (&oracle, finding);
        }
      check_best (&oracle, seen, i);
    }
  for (guint i = 0; i < seen->findings->len; i++)
    worst = MAX (worst, ((const LidFinding *)seen->findings->pdata[i])->grade);
  g_assert_cmpint (lid_assessment_worst (seen), ==, worst);
}

static void
try_case (JsonObject *file, JsonObject *one, const LidRule *rule)
{
  g_autoptr (ChecksCase) c = checks_case_new (file, one);
  g_autoptr (GPtrArray) tray = cures_machine_tray (c->population);
  LidQuestion question = { c->figures->board, c->population, c->as_found };

  /* dice of its own: a case more or less elsewhere changes nothing here */
  g_rand_set_seed (dice, g_str_hash (json_object_get_string_member (one, "case")));
  try_population (&question, tray);
  try_population (&question, NULL);
  for (guint i = 0; i < SHUFFLES && c->figures->board->n_slots <= 32; i++)
    {
      g_autoptr (LidPopulation) population = NULL;

      if (i >= SHUFFLES / 2)
        {
          cures_machine_rewire (dice, c->figures->board);
          cures_machine_solder (dice, c->figures->board, c->population);
        }
      population = cures_machine_shuffle (dice, question.board, c->population);
      question.population = population;
      question.as_found = i % 4 == 1 ? population : NULL;
      try_population (&question, i % 2 == 0 ? tray : NULL);
    }
}

/* The cases of the figures know boards that tell less. */
static void
try_figures (void)
{
  g_autofree char *folder
      = g_build_filename (g_getenv ("LID_SOURCE"), "tests", "cases", "figures", NULL);
  g_autoptr (GPtrArray) names = checks_case_paths (folder);

  for (guint i = 0; i < names->len; i++)
    {
      g_autoptr (JsonNode) node = checks_case_load (names->pdata[i]);
      JsonObject *file = json_node_get_object (node);
      JsonArray *cases = json_object_get_array_member (file, "cases");

      for (guint k = 0; k < json_array_get_length (cases); k++)
        try_case (file, json_array_get_object_element (cases, k), NULL);
    }
}

static void
test_best (void)
{
  dice = g_rand_new ();
  checks_case_each (try_case);
  try_figures ();
  g_rand_free (dice);
  g_test_message ("best: %u, of an earlier finding: %u, none: %u, least: %u", n_best, n_over,
                  n_none, n_least);
  g_assert_cmpuint (n_best, >, 1000);
  g_assert_cmpuint (n_none, >, 1000);
  g_assert_cmpuint (n_over, >, 50);
  g_assert_cmpuint (n_belied, >, 0);
  g_assert_cmpuint (n_set, >, 5 * SHUFFLES);
  g_assert_cmpuint (n_least, >, 50);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cures/best", test_best);
  return g_test_run ();
}
