/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rules-report.c — the catalogue of rules, for a person or as JSON. */
#include "rules-report.h"

#include "columns.h"
#include "json-line.h"

#include "checks/rules.h"
#include "help/catalogue.h"
#include "help/example.h"

#include <glib/gi18n.h>

static const char *
scope_text (LidScope scope)
{
  static const char *const words[] = { [LID_SCOPE_MACHINE] = "machine",
                                       [LID_SCOPE_SOCKET] = "socket",
                                       [LID_SCOPE_CHANNEL] = "channel",
                                       [LID_SCOPE_MODULE] = "module" };

  return words[scope];
}

static void
write_facts (LidJsonWriter *writer, const LidRule *rule)
{
  lid_json_write_open (writer, "facts", '[');
  for (guint fact = 0; fact < LID_N_FACTS; fact++)
    if (rule->facts & LID_FACT_BIT (fact))
      {
        lid_json_write_open (writer, NULL, '{');
        lid_json_write_text (writer, "fact", lid_fact_to_text (fact));
        lid_json_write_text (writer, "where", lid_fact_where_printed (fact));
        lid_json_write_close (writer, '}');
      }
  lid_json_write_close (writer, ']');
}

static void
write_example (LidJsonWriter *writer, const LidRule *rule)
{
  g_autoptr (LidExample) example = lid_example_new (rule);
  g_autoptr (LidAssessment) assessment = NULL;
  g_autofree char *machine = NULL;
  const LidFinding *finding;

  if (example == NULL)
    {
      lid_json_write_null (writer, "example");
      return;
    }
  assessment = lid_example_assess (example, example->population);
  finding = lid_example_finding (example, assessment);
  machine = lid_example_words (example);
  lid_json_write_open (writer, "example", '{');
  lid_json_write_text (writer, "machine", machine);
  if (example->definition != NULL)
    lid_json_write_raw (writer, "definition", example->definition);
  else
    lid_json_write_null (writer, "definition");
  lid_json_write_text (writer, "grade",
                       finding != NULL ? lid_grade_to_text (finding->grade) : NULL);
  lid_json_write_text (writer, "text", finding != NULL ? finding->text : NULL);
  lid_json_write_text (writer, "remedy",
                       finding != NULL && lid_finding_remedy (finding) != NULL
                           ? lid_finding_remedy (finding)->text
                           : NULL);
  lid_json_write_open (writer, "change", '[');
  for (guint i = 0; i < example->changes->len; i++)
    {
      g_autofree char *words = lid_example_change_words (example, i);

      lid_json_write_text (writer, NULL, words);
    }
  lid_json_write_close (writer, ']');
  lid_json_write_close (writer, '}');
}

/**
 * lid_rules_report:
 * @out: gets the entry, or the JSON line
 * @source: what was asked for
 * @rule: a rule
 */
void
lid_rules_report (GString *out, const char *source, const LidRule *rule, gboolean json)
{
  g_autoptr (LidExplanation) explanation = NULL;
  g_autofree char *text = NULL;
  LidJsonWriter writer;

  if (!json)
    {
      explanation = lid_catalogue_rule (rule);
      text = lid_explain_to_text (explanation);
      g_string_append_printf (out, "%s%s: %s", out->len > 0 ? "\n" : "", rule->id, text);
      return;
    }
  lid_json_line_open (&writer, out, source, NULL);
  lid_json_write_text (&writer, "rule", rule->id);
  lid_json_write_text (&writer, "title", rule->title);
  lid_json_write_open (&writer, "grades", '[');
  for (int grade = LID_GRADE_STOPS; grade >= LID_GRADE_NOTE; grade--)
    if (rule->grades & LID_GRADE_BIT (grade))
      lid_json_write_text (&writer, NULL, lid_grade_to_text ((LidGrade)grade));
  lid_json_write_close (&writer, ']');
  lid_json_write_text (&writer, "stops", lid_stops_to_text (rule->stops));
  lid_json_write_bool (&writer, "board_decides", rule->board_decides);
  lid_json_write_text (&writer, "scope", scope_text (rule->scope));
  lid_json_write_bool (&writer, "lasting", rule->lasting);
  write_facts (&writer, rule);
  lid_json_write_text (&writer, "why", rule->why);
  lid_json_write_text (&writer, "clears", rule->clears);
  lid_json_write_text (&writer, "no_moves", rule->no_moves);
  lid_json_write_text (&writer, "basis", rule->basis);
  lid_json_write_text (&writer, "known_from", rule->source);
  write_example (&writer, rule);
  lid_json_line_close (&writer);
}

/**
 * lid_rules_report_list:
 * @out: gets a line for each rule, in the order of the sheet
 */
void
lid_rules_report_list (GString *out)
{
  LidColumns columns;

  lid_columns_start (&columns, 3);
  for (guint i = 0; lid_rules[i] != NULL; i++)
    {
      g_autofree char *grades = lid_explain_grades (lid_rules[i]);

      lid_columns_add (&columns, lid_rules[i]->id);
      lid_columns_add (&columns, _ (lid_rules[i]->title));
      lid_columns_add (&columns, grades);
    }
  lid_columns_finish (&columns, out, "");
}
