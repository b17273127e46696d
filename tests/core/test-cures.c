/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remedies held to their promise over random populations of every platform, with a tray: carried
 * out, a remedy takes its finding away and stops nothing that did not stop before; every module is
 * then in one place only. */
#include "board/board-file.h"
#include "checks/cure-private.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "facts/label.h"
#include "figures-case.h"

#include <string.h>

#define POPULATIONS 60

static const char *const labels[] = {
  "16GB 1Rx4 PC4-2666V-RC2-12",      "16GB 2Rx8 PC4-2666V-RE2-12",
  "32GB 2Rx4 PC4-2933Y-RB2-12",      "16GB 2Rx8 PC4-2666V-EE1-12",
  "32GB 1Rx4 PC5-4800B-RC0-1010-XT", "64GB 2Rx4 PC5-4800B-RA0-1010-XT",
  "8GB 2Rx4 PC3-10600R-09-11-E2-D2", "16GB 2Rx8 PC4-2666V-SE1-12",
};

static LidModule *
make_module (guint which)
{
  LidLabel label;
  LidLabelFault fault;

  g_assert_true (lid_label_parse (labels[which], -1, &label, &fault, NULL));
  return lid_label_facts_to_module (&label);
}

/* Mostly one sort, so that the finer rules have something to say; each slot its own object. */
static LidPopulation *
populate (GRand *rand, const LidBoard *board, GPtrArray *tray)
{
  LidPopulation *population = lid_population_new (board);
  guint favourite = (guint)g_rand_int_range (rand, 0, G_N_ELEMENTS (labels));
  gint32 density = g_rand_int_range (rand, 1, 5), strangers = g_rand_int_range (rand, 4, 40);

  for (guint i = 0; i < board->n_slots + 8; i++)
    {
      guint which = g_rand_int_range (rand, 0, strangers) != 0
                        ? favourite
                        : (guint)g_rand_int_range (rand, 0, G_N_ELEMENTS (labels));
      g_autoptr (LidModule) module = make_module (which);

      if (i >= board->n_slots)
        g_ptr_array_add (tray, lid_module_ref (module));
      else if (population->slots[i].module == NULL && g_rand_int_range (rand, 0, 5) < density)
        lid_population_put (population, i, module);
    }
  if (board->n_sockets > 1 && g_rand_int_range (rand, 0, 3) == 0)
    population->processors[board->n_sockets - 1].fitted = FALSE;
  for (guint i = 0; i < board->n_sockets && board->n_processors > 0; i++)
    population->processors[i].model = 0;
  if (board->n_firmware > 0)
    population->firmware = g_strdup (board->firmware[board->n_firmware - 1].level);
  if (board->n_modes > 0 && g_rand_int_range (rand, 0, 3) == 0)
    population->mode = board->modes[g_rand_int_range (rand, 0, (gint32)board->n_modes)].mode;
  return population;
}

static guint
count (const LidAssessment *assessment, const LidRule *rule, LidGrade least)
{
  guint n = 0;

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      n += finding->rule == rule && finding->grade >= least;
    }
  return n;
}

static guint n_tried, n_tried_of[LID_MOST_RULES];

static void
check_seats (const LidPopulation *after, const LidRule *rule)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < after->n_slots; i++)
    if (after->slots[i].module != NULL && !g_hash_table_add (seen, after->slots[i].module))
      g_error ("%s: one module in two slots", rule->id);
}

/* Moves that were looked for, not given by the rule itself: they cost neither capacity nor, where
 * it is no matter of starting, anything else. */
static void
check_price (const LidAssessment *before, const LidAssessment *after, const LidFinding *finding)
{
  guint was = 0, is = 0;

  for (guint i = 0; lid_rules[i] != NULL; i++)
    {
      was += count (before, lid_rules[i], LID_GRADE_LOSES)
             - count (before, lid_rules[i], LID_GRADE_STOPS);
      is += count (after, lid_rules[i], LID_GRADE_LOSES)
            - count (after, lid_rules[i], LID_GRADE_STOPS);
    }
  if (before->figures.starts && after->figures.capacity_mib < before->figures.capacity_mib)
    g_error ("%s: “%s” costs capacity", finding->rule->id, lid_finding_remedy (finding)->text);
  if (finding->grade != LID_GRADE_STOPS && is >= was + (finding->grade != LID_GRADE_LOSES))
    g_error ("%s: “%s” loses something else", finding->rule->id,
             lid_finding_remedy (finding)->text);
}

static void
check_remedy (const LidBoard *board,
              const LidPopulation *population,
              const LidAssessment *before,
              const LidFinding *finding)
{
  g_autoptr (LidPopulation) after = lid_remedy_apply (lid_finding_remedy (finding), population);
  const LidQuestion question = { board, after, NULL };
  g_autoptr (LidAssessment) again = lid_assessment_new_plain (&question);
  gboolean nothing = !before->figures.starts || before->figures.capacity_mib == 0;

  n_tried++;
  for (guint i = 0; lid_rules[i] != NULL; i++)
    n_tried_of[i] += lid_rules[i] == finding->rule;
  check_seats (after, finding->rule);
  if (count (again, finding->rule, finding->grade) >= count (before, finding->rule, finding->grade))
    g_error ("%s: %s: “%s” does not clear “%s”", board->id, finding->rule->id,
             lid_finding_remedy (finding)->text, finding->text);
  if (finding->rule == &lid_rule_idle_channels || finding->rule == &lid_rule_uneven_channels
      || finding->rule == &lid_rule_uneven_controllers || finding->rule == &lid_rule_slowed
      || finding->rule == &lid_rule_unmatched_sockets)
    check_price (before, again, finding);
  for (guint i = 0; lid_rules[i] != NULL; i++)
    if (count (again, lid_rules[i], LID_GRADE_STOPS) > 0
        && count (before, lid_rules[i], LID_GRADE_STOPS) == 0
        && !(lid_rules[i] == &lid_rule_no_memory && nothing))
      g_error ("%s: %s: “%s” makes %s stop", board->id, finding->rule->id,
               lid_finding_remedy (finding)->text, lid_rules[i]->id);
}

static void
try_board (GRand *rand, const LidBoard *board)
{
  for (guint i = 0; i < POPULATIONS; i++)
    {
      g_autoptr (GPtrArray) tray
          = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_module_unref);
      g_autoptr (LidPopulation) population = populate (rand, board, tray);
      const LidQuestion question = { board, population, NULL };
      g_autoptr (LidAssessment) assessment = lid_assessment_new_at_hand (&question, tray);

      for (guint k = 0; k < assessment->findings->len; k++)
        {
          const LidFinding *finding = assessment->findings->pdata[k];

          if (lid_finding_remedy (finding) == NULL || lid_finding_remedy (finding)->moves->len == 0)
            continue;
          if (finding->rule->no_moves != NULL)
            g_error ("%s offers moves and says that none help", finding->rule->id);
          check_remedy (board, population, assessment, finding);
        }
    }
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(char *const *)a, *(char *const *)b);
}

static void
test_promises (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GRand) rand = g_rand_new_with_seed (20261128);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".json"))
      g_ptr_array_add (names, g_build_filename (folder, name, NULL));
  g_ptr_array_sort (names, by_name);
  for (guint i = 0; i < names->len; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (LidBoard) board = lid_board_file_load (names->pdata[i], &error);

      g_assert_no_error (error);
      try_board (rand, board);
    }
  for (guint i = 0; lid_rules[i] != NULL; i++)
    if (n_tried_of[i] > 0)
      g_test_message ("%s: %u", lid_rules[i]->id, n_tried_of[i]);
  g_assert_cmpuint (n_tried, >, 1000);
}

/* Ways to move of a machine of one processor with @slots, by those of each channel; @put as in
 * tests/cases/figures/README. */
typedef struct
{
  FiguresCase *c;
  LidQuestion question;
  LidSurvey *survey;
  LidCheck check;
} Machine;

static void
machine_set_up (Machine *machine, const char *slots, const char *put)
{
  machine->c = figures_case_parse ("{\"layout\": {\"sockets\": 1, \"slots\": [%s]}, \"modules\": {"
                                   "\"R32\": \"32GB 2Rx4 PC4-2666V-RB2-12\","
                                   " \"R16\": \"16GB 2Rx4 PC4-2666V-RB2-12\"}, \"put\": {%s}}",
                                   slots, put);
  machine->question = (LidQuestion){ machine->c->board, machine->c->population, NULL };
  machine->survey = lid_survey_new (machine->c->board, machine->c->population);
  lid_check_init (&machine->check, &machine->question, machine->survey);
}

static void
machine_clear (Machine *machine)
{
  lid_check_clear (&machine->check);
  lid_survey_free (machine->survey);
  figures_case_free (machine->c);
}

/* Where the module of the first slot goes: LID_NOWHERE, there is no place. */
static int
settle_first (const char *slots, const char *put)
{
  const guint first = 0;
  g_autoptr (GArray) moves = NULL;
  Machine machine;
  int to = LID_NOWHERE;

  machine_set_up (&machine, slots, put);
  moves = lid_cure_settle (&machine.check, &first, 1, LID_NOWHERE, FALSE);
  if (moves != NULL)
    to = g_array_index (moves, LidMove, 0).to;
  machine_clear (&machine);
  return to;
}

/* The first slot of a channel first (shared/facts/population.md P1): nothing is sent behind a slot
 * that the same moves empty. */
static void
test_behind (void)
{
  g_assert_cmpint (settle_first ("2, 2", "\"R16\": \"1-A1\", \"R32\": \"1-B1 1-B2\""), ==,
                   LID_NOWHERE);
  g_assert_cmpint (settle_first ("2, 2", "\"R16\": \"1-A1\", \"R32\": \"1-B1\""), ==, 3);
}

static guint
count_nudges (const char *slots, const char *put)
{
  g_autoptr (GPtrArray) nudges = NULL;
  Machine machine;
  guint n;

  machine_set_up (&machine, slots, put);
  nudges = lid_cure_nudges (&machine.check);
  n = nudges->len;
  machine_clear (&machine);
  return n;
}

/* In a full machine of two sorts each of the one may change places with each of the other
 * (arithmetic): 8 × 12 are as many as are tried, 9 × 11 are more. */
static void
test_most_nudges (void)
{
  g_assert_cmpuint (count_nudges ("10, 10", "\"R32\": \"1-A1 1-A2 1-A3 1-A4 1-A5 1-A6 1-A7 1-A8\","
                                            " \"R16\": \"*\""),
                    ==, 96);
  g_assert_cmpuint (count_nudges ("10, 10", "\"R32\": \"1-A1 1-A2 1-A3 1-A4 1-A5 1-A6 1-A7 1-A8"
                                            " 1-A9\", \"R16\": \"*\""),
                    ==, 0);
}

static void
free_finding (gpointer data)
{
  g_free (((LidFinding *)data)->text);
  g_free (data);
}

/* Findings of one rule, as many as @slots has characters, each naming so many slots. */
static GPtrArray *
make_findings (const char *slots)
{
  GPtrArray *findings = g_ptr_array_new_with_free_func (free_finding);

  for (; *slots != 0; slots++)
    {
      LidFinding *finding = g_new0 (LidFinding, 1);

      finding->rule = &lid_rule_exclusion;
      finding->grade = LID_GRADE_STOPS;
      finding->text = g_strdup (slots);
      finding->n_slots = (guint)(*slots - '0');
      g_ptr_array_add (findings, finding);
    }
  return findings;
}

static gboolean
is_cleared (const char *before, const char *after)
{
  g_autoptr (GPtrArray) were = make_findings (before), are = make_findings (after);
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  const LidBoard board = { 0 };
  LidCheck check = { .findings = were, .board = &board };
  const LidFigures figures = { 0 };
  const LidCureWork cure = { .check = &check, .findings = were, .figures = &figures };
  LidAssessment judged = { .findings = are };
  LidCureCandidate candidate = { moves, &judged, FALSE };

  return lid_cure_clears (&cure, were->pdata[0], &candidate, FALSE);
}

/* By the head of checks/cure.c: fewer findings that name fewer slots; two that become one which
 * names as many are no better. */
static void
test_fewer (void)
{
  g_assert_true (is_cleared ("1", ""));
  g_assert_true (is_cleared ("11", "1"));
  g_assert_false (is_cleared ("11", "2"));
  g_assert_false (is_cleared ("12", "3"));
  g_assert_true (is_cleared ("13", "3"));
  g_assert_false (is_cleared ("2", "1"));
  g_assert_true (is_cleared ("00", "0"));
  g_assert_false (is_cleared ("0", "0"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cures/promises", test_promises);
  g_test_add_func ("/cures/fewer", test_fewer);
  g_test_add_func ("/cures/behind", test_behind);
  g_test_add_func ("/cures/most-nudges", test_most_nudges);
  return g_test_run ();
}
