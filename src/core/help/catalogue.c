/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "help/catalogue.h"

#include "checks/rules.h"
#include "help/example.h"

#include <glib/gi18n-lib.h>

static void
add (LidExplanation *explanation, const char *heading, char *text)
{
  LidExplainPart part = { heading, text };

  g_array_append_val (explanation->parts, part);
}

static void
add_facts (LidExplanation *explanation, const LidRule *rule)
{
  GString *text = g_string_new (NULL);

  for (guint fact = 0; fact < LID_N_FACTS; fact++)
    if (rule->facts & LID_FACT_BIT (fact))
      g_string_append_printf (text, _ ("%s%s (where to read it: %s)"), text->len > 0 ? "; " : "",
                              lid_fact_to_words (fact), lid_fact_where_printed (fact));
  if (text->len == 0)
    {
      g_string_free (text, TRUE);
      return;
    }
  g_string_append_c (text, '.');
  add (explanation, _ ("Facts of a module it needs"), g_string_free (text, FALSE));
}

static void
add_remedy (LidExplanation *explanation, const LidRule *rule, const LidFinding *finding)
{
  if (rule->no_moves != NULL)
    add (explanation, _ ("Why no move is offered"), g_strdup (_ (rule->no_moves)));
  else if (lid_finding_remedy (finding) != NULL)
    add (explanation, _ ("What is offered to be done in one step"),
         g_strdup (lid_finding_remedy (finding)->text));
}

static void
add_example (LidExplanation *explanation, const LidExample *example)
{
  g_autoptr (LidAssessment) assessment = lid_example_assess (example, example->population);
  const LidFinding *finding = lid_example_finding (example, assessment);
  GString *change = g_string_new (NULL);

  g_return_if_fail (finding != NULL);
  add (explanation, _ ("Example"), lid_example_words (example));
  if (example->definition_words != NULL)
    add (explanation, _ ("In the board’s definition"), g_strdup (example->definition_words));
  add (explanation, _ ("The rule then says"),
       g_strdup_printf ("%s: %s", lid_grade_to_words (finding->grade), finding->text));
  for (guint i = 0; i < example->changes->len; i++)
    {
      g_autofree char *words = lid_example_change_words (example, i);

      g_string_append_printf (change, "%s%s", i > 0 ? " " : "", words);
    }
  if (example->changes->len == 0)
    g_string_append (change, _ ("None: it stands for as long as the board is what it is."));
  add (explanation, _ ("The smallest change that clears it"), g_string_free (change, FALSE));
  add_remedy (explanation, example->rule, finding);
}

/**
 * lid_catalogue_rule:
 * @rule: a rule
 *
 * Returns: (transfer full): all there is to say of it: lid_explain_rule(), the facts it needs, its
 *   example with what the checker says of it, and the smallest change that clears it
 */
LidExplanation *
lid_catalogue_rule (const LidRule *rule)
{
  LidExplanation *explanation = lid_explain_rule (rule);
  g_autoptr (LidExample) example = lid_example_new (rule);

  add_facts (explanation, rule);
  if (example != NULL)
    add_example (explanation, example);
  return explanation;
}

static void
write_rule (GString *out, const LidRule *rule)
{
  g_autoptr (LidExplanation) explanation = lid_catalogue_rule (rule);
  g_autofree char *title = g_markup_escape_text (explanation->title, -1);

  g_string_append_printf (out, "<section id=\"%s\">\n<h2>%s <code>%s</code></h2>\n<dl>\n", rule->id,
                          title, rule->id);
  for (guint i = 0; i < explanation->parts->len; i++)
    {
      const LidExplainPart *part = &g_array_index (explanation->parts, LidExplainPart, i);
      g_autofree char *heading = g_markup_escape_text (part->heading, -1);
      g_autofree char *text = g_markup_escape_text (part->text, -1);

      g_string_append_printf (out, "<dt>%s</dt><dd>%s</dd>\n", heading, text);
    }
  g_string_append (out, "</dl>\n</section>\n");
}

/**
 * lid_catalogue_html:
 *
 * Returns: (transfer full): the catalogue as one page that needs nothing beside it
 */
char *
lid_catalogue_html (void)
{
  GString *out = g_string_new ("<!DOCTYPE html>\n<html lang=\"");
  g_autofree char *title = g_markup_escape_text (_ ("Catalogue of rules"), -1);
  g_autofree char *about = g_markup_escape_text (
      _ ("What the checker knows, made from the program itself. Examples are small machines that "
         "each show one rule."),
      -1);

  /* The language the texts came in: translators put theirs here. */
  g_string_append_printf (out,
                          "%s\">\n<head>\n<meta charset=\"utf-8\">\n<title>%s</title>\n<style>\n"
                          "body { max-width: 50em; margin: 2em auto; padding: 0 1em;"
                          " font-family: Inter, sans-serif; line-height: 1.45; }\n"
                          "h2 { margin-top: 2em; } h2 code { font-size: 70%%; font-weight: 400; }\n"
                          "dt { font-weight: 600; margin-top: .5em; } dd { margin-left: 1.5em;"
                          " overflow-wrap: anywhere; }\n</style>\n</head>\n<body>\n"
                          "<h1>%s</h1>\n<p>%s</p>\n<ul>\n",
                          C_ ("language code of this page", "en"), title, title, about);
  for (guint i = 0; lid_rules[i] != NULL; i++)
    {
      g_autofree char *name = g_markup_escape_text (_ (lid_rules[i]->title), -1);

      g_string_append_printf (out, "<li><a href=\"#%s\">%s</a></li>\n", lid_rules[i]->id, name);
    }
  g_string_append (out, "</ul>\n");
  for (guint i = 0; lid_rules[i] != NULL; i++)
    write_rule (out, lid_rules[i]);
  g_string_append (out, "</body>\n</html>\n");
  return g_string_free (out, FALSE);
}
