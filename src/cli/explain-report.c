/* SPDX-License-Identifier: GPL-3.0-or-later */
/* explain-report.c — a rule, a word or a caution, for a person or as JSON. */
#include "explain-report.h"

#include "json-line.h"
#include "output.h"
#include "rules-report.h"

#include "checks/rules.h"
#include "help/explain.h"

#include <glib/gi18n.h>

static void
write_word (GString *out, const char *source, const LidWord *word, gboolean json)
{
  g_autoptr (LidExplanation) explanation = lid_explain_word (word);
  g_autofree char *text = lid_explain_to_text (explanation);
  LidJsonWriter writer;

  if (!json)
    {
      g_string_append_printf (out, "%s%s", out->len > 0 ? "\n" : "", text);
      return;
    }
  lid_json_line_open (&writer, out, source, NULL);
  lid_json_write_text (&writer, "word", word->word);
  lid_json_write_text (&writer, "id", word->id);
  lid_json_write_text (&writer, "text", word->text);
  lid_json_line_close (&writer);
}

static void
write_caution (GString *out, const char *source, const LidCaution *caution, gboolean json)
{
  g_autoptr (LidExplanation) explanation = lid_explain_caution (caution);
  g_autofree char *text = lid_explain_to_text (explanation);
  LidJsonWriter writer;

  if (!json)
    {
      g_string_append_printf (out, "%s%s: %s", out->len > 0 ? "\n" : "", caution->id, text);
      return;
    }
  lid_json_line_open (&writer, out, source, NULL);
  lid_json_write_text (&writer, "caution", caution->id);
  lid_json_write_text (&writer, "moment", lid_cautions_moment_to_text (caution->moment));
  lid_json_write_text (&writer, "text", caution->text);
  lid_json_write_text (&writer, "why", caution->why);
  lid_json_write_text (&writer, "known_from", caution->source);
  lid_json_line_close (&writer);
}

/* The page behind the word: what the figures of bandwidth rest on. */
static void
write_bandwidth (GString *out, const char *source, gboolean json)
{
  g_autoptr (LidExplanation) page = lid_explain_bandwidth ();
  g_autofree char *text = lid_explain_to_text (page);
  LidJsonWriter writer;

  if (!json)
    {
      g_string_append_printf (out, "\n%s", text);
      return;
    }
  lid_json_line_open (&writer, out, source, NULL);
  lid_json_write_text (&writer, "page", page->title);
  lid_json_write_open (&writer, "parts", '[');
  for (guint i = 0; i < page->parts->len; i++)
    lid_json_write_text (&writer, NULL, g_array_index (page->parts, LidExplainPart, i).text);
  lid_json_write_close (&writer, ']');
  lid_json_line_close (&writer);
}

/**
 * lid_explain_report:
 * @out: gets the text or the JSON line; all of them, where they share a name
 * @word: a rule's id, a word or a caution's id
 *
 * Returns: FALSE where there is none, after that was said
 */
gboolean
lid_explain_report (GString *out, const char *word, gboolean json)
{
  const LidRule *rule = lid_rules_find (word);
  const LidWord *known = lid_glossary_find (word);
  const LidCaution *caution = lid_cautions_find (word);
  g_autofree char *reason = NULL;

  if (known != NULL)
    write_word (out, word, known, json);
  if (known != NULL && g_strcmp0 (known->id, "bandwidth") == 0)
    write_bandwidth (out, word, json);
  if (rule != NULL)
    lid_rules_report (out, word, rule, json);
  if (caution != NULL)
    write_caution (out, word, caution, json);
  if (known != NULL || rule != NULL || caution != NULL)
    return TRUE;
  reason = g_strdup_printf (
      _ ("there is no rule, no word and no caution “%s”; explain alone lists what there is"), word);
  if (json)
    lid_json_line_failure (out, word, reason);
  else
    lid_complain ("%s", reason);
  return FALSE;
}

/**
 * lid_explain_report_all:
 * @out: gets a list of all words, rules and cautions; as JSON everything of them
 */
void
lid_explain_report_all (GString *out, gboolean json)
{
  const LidCaution *cautions;
  const LidWord *words;
  guint n, n_cautions;

  words = lid_glossary_all (&n);
  cautions = lid_cautions_all (&n_cautions);
  if (json)
    {
      for (guint i = 0; i < n; i++)
        write_word (out, words[i].id, &words[i], TRUE);
      for (guint i = 0; lid_rules[i] != NULL; i++)
        lid_rules_report (out, lid_rules[i]->id, lid_rules[i], TRUE);
      for (guint i = 0; i < n_cautions; i++)
        write_caution (out, cautions[i].id, &cautions[i], TRUE);
      return;
    }
  for (guint i = 0; i < n; i++)
    {
      if (i == 0 || words[i].group != words[i - 1].group)
        g_string_append_printf (out, "%s%s:\n", i > 0 ? "\n" : "",
                                lid_glossary_group (words[i].group));
      g_string_append_printf (out, "  %s\n", _ (words[i].word));
    }
  g_string_append_printf (out, "\n%s:\n", _ ("Rules"));
  for (guint i = 0; lid_rules[i] != NULL; i++)
    g_string_append_printf (out, "  %s: %s\n", lid_rules[i]->id, _ (lid_rules[i]->title));
  g_string_append_printf (out, "\n%s:\n", _ ("Cautions"));
  for (guint i = 0; i < n_cautions; i++)
    g_string_append_printf (out, "  %s: %s\n", cautions[i].id, _ (cautions[i].text));
}
