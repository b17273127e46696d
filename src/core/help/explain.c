/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "help/board-tables-private.h"
#include "help/explain-private.h"

#include "base/text.h"
#include "checks/rules.h"
#include "figures/regions.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* What rules give as their basis, as a sentence. */
static const struct
{
  const char *basis;
  const char *words;
} bases[] = {
  { "physics", N_ ("It follows from how the parts are built.") },
  { "standard", N_ ("A published standard says so.") },
  { "listed", N_ ("Boards differ: this board's definition decides, after its maker's documents.") },
  { "bench-proven", N_ ("Somebody saw it work and said when and with which firmware level.") },
  { "assumed", N_ ("Nobody says so: it is assumed.") },
  { "inventory", N_ ("It is what the machine itself reports, or leaves out.") },
  { "common practice", N_ ("The trade works so.") },
};

/* Sources that are no titles. */
static const char *const plain_sources[]
    = { N_ ("common practice, no source"), N_ ("from memory") };

LidExplanation *
lid_explain_start (const char *title)
{
  LidExplanation *explanation = g_new0 (LidExplanation, 1);

  explanation->title = g_strdup (title);
  explanation->parts = g_array_new (FALSE, FALSE, sizeof (LidExplainPart));
  return explanation;
}

void
lid_explain_add (LidExplanation *explanation, const char *heading, char *text)
{
  LidExplainPart part = { heading, text };

  g_array_append_val (explanation->parts, part);
}

void
lid_explain_free (LidExplanation *explanation)
{
  if (explanation == NULL)
    return;
  for (guint i = 0; i < explanation->parts->len; i++)
    g_free (g_array_index (explanation->parts, LidExplainPart, i).text);
  g_array_unref (explanation->parts);
  g_free (explanation->title);
  g_free (explanation);
}

static void
add_origin (LidExplanation *explanation, const char *basis, const char *source)
{
  const char *words = NULL, *plain = NULL;
  /* Boards write their source as a sentence, or as a title. */
  g_autofree char *title
      = g_strndup (source, strlen (source) - (g_str_has_suffix (source, ".") ? 1 : 0));
  char *text;

  for (guint i = 0; i < G_N_ELEMENTS (bases); i++)
    if (strcmp (bases[i].basis, basis) == 0)
      words = _ (bases[i].words);
  for (guint i = 0; i < G_N_ELEMENTS (plain_sources); i++)
    if (strcmp (plain_sources[i], source) == 0)
      plain = _ (plain_sources[i]);
  if (words == NULL)
    text = g_strdup_printf (_ ("%s. Source: %s."), basis, title);
  else if (plain != NULL)
    text = g_strdup_printf (_ ("%s The rule itself: %s."), words, plain);
  else
    text = g_strdup_printf (_ ("%s Source: %s."), words, title);
  lid_explain_add (explanation, _ ("Where this comes from"), text);
}

/* What a grade means, from the glossary, so that a word has one meaning. */
static const char *
grade_means (LidGrade grade)
{
  const LidWord *word = lid_glossary_find (lid_grade_to_text (grade));

  g_return_val_if_fail (word != NULL, "");
  return _ (word->text);
}

/**
 * lid_explain_grades:
 * @rule: a rule
 *
 * Returns: (transfer full): what it may say and what that stops, in words: "stops (the slots),
 *   unsure; a board may give another grade"
 */
char *
lid_explain_grades (const LidRule *rule)
{
  const char *words[LID_GRADE_STOPS + 1];
  g_autofree char *joined = NULL;
  guint n = 0;

  for (int grade = LID_GRADE_STOPS; grade >= LID_GRADE_NOTE; grade--)
    {
      if ((rule->grades & LID_GRADE_BIT (grade)) == 0)
        continue;
      words[n++] = grade != LID_GRADE_STOPS           ? lid_grade_to_words ((LidGrade)grade)
                   : rule->stops == LID_STOPS_MACHINE ? _ ("stops the machine")
                                                      : _ ("stops the slots it names");
    }
  joined = lid_text_join (words, n, G_N_ELEMENTS (words));
  return rule->board_decides
             ? g_strdup_printf (_ ("%s; a board's definition may give another grade"), joined)
             : g_steal_pointer (&joined);
}

/**
 * lid_explain_rule:
 * @rule: a rule
 *
 * Returns: (transfer full): what it says, why, what clears it, and from where it is known
 */
LidExplanation *
lid_explain_rule (const LidRule *rule)
{
  LidExplanation *explanation = lid_explain_start (_ (rule->title));

  lid_explain_add (explanation, _ ("What it says"), lid_explain_grades (rule));
  lid_explain_add (explanation, _ ("Why"), g_strdup (_ (rule->why)));
  lid_explain_add (explanation, _ ("What clears it"), g_strdup (_ (rule->clears)));
  add_origin (explanation, rule->basis, rule->source);
  return explanation;
}

/**
 * lid_explain_finding:
 * @finding: a finding
 *
 * Returns: (transfer full): what its grade means, why, what clears it, and from where it is known:
 *   of a limit that is the board's own source
 */
LidExplanation *
lid_explain_finding (const LidFinding *finding)
{
  const LidRule *rule = finding->rule;
  LidExplanation *explanation = lid_explain_start (_ (rule->title));

  lid_explain_add (explanation, lid_grade_to_words (finding->grade),
                   g_strdup (grade_means (finding->grade)));
  lid_explain_add (explanation, _ ("Why"), g_strdup (_ (rule->why)));
  lid_explain_add (explanation, _ ("What clears it"), g_strdup (_ (rule->clears)));
  add_origin (explanation, finding->basis, finding->source);
  return explanation;
}

/**
 * lid_explain_word:
 * @word: a word of the glossary
 *
 * Returns: (transfer full): its meaning
 */
LidExplanation *
lid_explain_word (const LidWord *word)
{
  LidExplanation *explanation = lid_explain_start (_ (word->word));

  lid_explain_add (explanation, NULL, g_strdup (_ (word->text)));
  return explanation;
}

/**
 * lid_explain_caution:
 * @caution: a caution
 *
 * Returns: (transfer full): what it says, at which moment, what happens otherwise, and its source
 */
LidExplanation *
lid_explain_caution (const LidCaution *caution)
{
  LidExplanation *explanation = lid_explain_start (_ (caution->text));

  lid_explain_add (explanation, _ ("When"), g_strdup (lid_cautions_moment (caution->moment)));
  lid_explain_add (explanation, _ ("Why"), g_strdup (_ (caution->why)));
  lid_explain_add (explanation, _ ("Where this comes from"), g_strdup (_ (caution->source)));
  return explanation;
}

/* "1, 2, 4, 6 and 8" */
static char *
list_ways (const LidBoard *board)
{
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 1; i < 32; i++)
    if (board->ways & (1u << i))
      g_ptr_array_add (texts, g_strdup_printf ("%u", i));
  return lid_text_join ((const char *const *)texts->pdata, texts->len, 32);
}

/**
 * lid_explain_model:
 * @board: a board
 *
 * Product.md 6: bandwidth is always marked as a model, its assumptions one click away.
 *
 * Returns: (transfer full): what is assumed where bandwidth is computed for this board
 */
LidExplanation *
lid_explain_model (const LidBoard *board)
{
  LidExplanation *explanation = lid_explain_start (_ ("What is assumed"));
  g_autofree char *ways = list_ways (board);
  LidRegionRule rule = lid_regions_rule (board, NULL);
  const char *source
      = board->efficiency_source != NULL ? board->efficiency_source : _ ("from memory");

  lid_explain_add (explanation, _ ("Share of the peak"),
                   g_strdup_printf (_ ("A streaming read reaches %u %% of the peak. Source: %s."),
                                    board->efficiency / 100, source));
  if (rule.model == LID_REGIONS_EQUAL_GROUPS)
    lid_explain_add (
        explanation, _ ("Regions"),
        g_strdup (_ ("Channels that hold the same are read together; none is split.")));
  else if (rule.model == LID_REGIONS_WAYS)
    lid_explain_add (
        explanation, _ ("Regions"),
        g_strdup_printf (_ ("Memory is spread over as many channels as possible, in ways of %s."),
                         ways));
  else
    lid_explain_add (
        explanation, _ ("Regions"),
        g_strdup (_ ("Memory is spread over all channels that have some left, layer by layer: no "
                     "numbers of ways are known for this board.")));
  for (guint i = 0; i < board->n_ways_also; i++)
    lid_explain_add (explanation, _ ("Regions"),
                     lid_board_tables_ways_also (board, &board->ways_also[i]));
  lid_explain_add (
      explanation, _ ("What it is not"),
      g_strdup (_ ("Bandwidth is not performance, and no model knows the firmware: a measurement "
                   "may differ.")));
  lid_explain_add (explanation, _ ("More"),
                   g_strdup (_ ("Words and Rules has a page on it: every constant with its source, "
                                "and where the model is known to be off.")));
  return explanation;
}

/**
 * lid_explain_to_text:
 *
 * Returns: (transfer full): the whole, a paragraph for each part, ending in a line feed
 */
char *
lid_explain_to_text (const LidExplanation *explanation)
{
  GString *text = g_string_new (explanation->title);

  g_string_append_c (text, '\n');
  for (guint i = 0; i < explanation->parts->len; i++)
    {
      const LidExplainPart *part = &g_array_index (explanation->parts, LidExplainPart, i);

      if (part->heading != NULL)
        g_string_append_printf (text, "  %s: %s\n", part->heading, part->text);
      else
        g_string_append_printf (text, "  %s\n", part->text);
    }
  return g_string_free (text, FALSE);
}
