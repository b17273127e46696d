/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The catalogue of rules: every rule has an example that makes it speak; the change it names
 * silences it; no part of that change can be left out; and nothing stops afterwards. */
#include "checks/remedy.h"
#include "checks/rules.h"
#include "help/catalogue.h"
#include "help/example.h"

#include <string.h>

static gboolean
stops (const LidAssessment *assessment)
{
  return lid_assessment_worst (assessment) == LID_GRADE_STOPS;
}

static void
each_example (void (*visit) (const LidExample *example, const LidFinding *finding))
{
  for (guint i = 0; lid_rules[i] != NULL; i++)
    {
      g_autoptr (LidExample) example = lid_example_new (lid_rules[i]);
      g_autoptr (LidAssessment) assessment = NULL;
      const LidFinding *finding;

      if (example == NULL)
        {
          g_test_fail_printf ("%s: resources/rules has no example", lid_rules[i]->id);
          continue;
        }
      assessment = lid_example_assess (example, example->population);
      finding = lid_example_finding (example, assessment);
      if (finding == NULL)
        g_test_fail_printf ("%s: its example does not make it speak", lid_rules[i]->id);
      else
        visit (example, finding);
    }
}

static gboolean
speaks_without (const LidExample *example, int change)
{
  g_autoptr (LidPopulation) after = lid_example_change (example, change);
  g_autoptr (LidAssessment) assessment = lid_example_assess (example, after);

  return lid_example_finding (example, assessment) != NULL;
}

static void
check_change (const LidExample *example, const LidFinding *finding)
{
  g_autoptr (LidPopulation) after = lid_example_change (example, LID_NOWHERE);
  g_autoptr (LidAssessment) assessment = lid_example_assess (example, after);

  if (example->changes->len == 0)
    {
      g_assert_cmpint (finding->grade, ==, LID_GRADE_NOTE);
      return;
    }
  if (lid_example_finding (example, assessment) != NULL)
    g_test_fail_printf ("%s: the change does not clear it", example->rule->id);
  if (stops (assessment))
    g_test_fail_printf ("%s: after the change: %s", example->rule->id,
                        ((const LidFinding *)assessment->findings->pdata[0])->text);
  for (guint i = 0; i < example->changes->len; i++)
    if (!speaks_without (example, (int)i))
      g_test_fail_printf ("%s: part %u of the change is not needed", example->rule->id, i);
}

static void
test_changes (void)
{
  each_example (check_change);
}

/* A rule that says why no move helps offers none; every other offers moves in its example, and
 * they do what they promise. */
static void
check_remedy (const LidExample *example, const LidFinding *finding)
{
  gboolean moves
      = lid_finding_remedy (finding) != NULL && lid_finding_remedy (finding)->moves->len > 0;
  g_autoptr (LidPopulation) after = NULL;
  g_autoptr (LidAssessment) assessment = NULL;

  if (moves != (example->rule->no_moves == NULL))
    g_test_fail_printf ("%s: %s", example->rule->id,
                        moves ? "it offers moves and says none help"
                              : "no moves are offered, and it does not say why");
  if (!moves)
    return;
  after = lid_remedy_apply (lid_finding_remedy (finding), example->population);
  assessment = lid_example_assess (example, after);
  g_test_message ("%s: %s", example->rule->id, lid_finding_remedy (finding)->text);
  if (lid_example_finding (example, assessment) != NULL)
    g_test_fail_printf ("%s: “%s” does not clear it", example->rule->id,
                        lid_finding_remedy (finding)->text);
  if (stops (assessment))
    g_test_fail_printf ("%s: “%s” and then: %s", example->rule->id,
                        lid_finding_remedy (finding)->text,
                        ((const LidFinding *)assessment->findings->pdata[0])->text);
}

static void
test_remedies (void)
{
  each_example (check_remedy);
}

/* What each example says, word by word: rule, grade, basis, source, sentence, remedy. After a
 * change of words, look at what LID_UPDATE_SENTENCES=1 writes. */
static GString *said;

static void
write_said (const LidExample *example, const LidFinding *finding)
{
  g_string_append_printf (
      said, "%s\t%s\t%s\t%s\t%s\t%s\n", example->rule->id, lid_grade_to_text (finding->grade),
      finding->basis, finding->source, finding->text,
      lid_finding_remedy (finding) != NULL ? lid_finding_remedy (finding)->text : "");
}

static void
test_sentences (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "tests", "data", "rules", "sentences.tsv", NULL);
  g_autofree char *expected = NULL;
  g_auto (GStrv) lines = NULL, now = NULL;

  said = g_string_new ("rule\tgrade\tbasis\tsource\tsentence\tremedy\n");
  each_example (write_said);
  if (g_getenv ("LID_UPDATE_SENTENCES") != NULL)
    g_assert_true (g_file_set_contents (path, said->str, -1, NULL));
  g_assert_true (g_file_get_contents (path, &expected, NULL, NULL));
  lines = g_strsplit (expected, "\n", -1);
  now = g_strsplit (said->str, "\n", -1);
  for (guint i = 0; lines[i] != NULL || now[i] != NULL; i++)
    {
      g_assert_cmpstr (now[i], ==, lines[i]);
      if (lines[i] == NULL || now[i] == NULL)
        break;
    }
  g_string_free (said, TRUE);
}

/* What the rule declares is what its example shows; the entry says all parts. */
static void
check_entry (const LidExample *example, const LidFinding *finding)
{
  g_autoptr (LidExplanation) entry = lid_catalogue_rule (example->rule);
  g_autofree char *text = lid_explain_to_text (entry);

  /* What the board's definition says is said in words, never as it stands in the file. */
  if (example->definition != NULL)
    {
      g_assert_nonnull (strstr (text, example->definition_words));
      g_assert_cmpuint (strlen (example->definition_words), >, 20);
      g_assert_null (strpbrk (example->definition_words, "{}\"_"));
    }

  if ((example->rule->grades & LID_GRADE_BIT (finding->grade)) == 0
      && !example->rule->board_decides)
    g_test_fail_printf ("%s: the example shows a grade it does not declare", example->rule->id);
  g_assert_nonnull (strstr (text, finding->text));
  g_assert_nonnull (strstr (text, "The smallest change that clears it"));
  for (guint i = 0; i < example->changes->len; i++)
    {
      g_autofree char *words = lid_example_change_words (example, i);

      g_assert_true (g_str_has_suffix (words, "."));
      g_assert_nonnull (strstr (text, words));
    }
}

static void
test_entries (void)
{
  each_example (check_entry);
}

static void
test_page (void)
{
  g_autofree char *page = lid_catalogue_html ();

  g_assert_true (g_utf8_validate (page, -1, NULL));
  for (guint i = 0; lid_rules[i] != NULL; i++)
    {
      g_autofree char *link = g_strdup_printf ("href=\"#%s\"", lid_rules[i]->id);
      g_autofree char *anchor = g_strdup_printf ("id=\"%s\"", lid_rules[i]->id);

      g_assert_nonnull (strstr (page, link));
      g_assert_nonnull (strstr (page, anchor));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/catalogue/changes", test_changes);
  g_test_add_func ("/catalogue/remedies", test_remedies);
  g_test_add_func ("/catalogue/sentences", test_sentences);
  g_test_add_func ("/catalogue/entries", test_entries);
  g_test_add_func ("/catalogue/page", test_page);
  return g_test_run ();
}
