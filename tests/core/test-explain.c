/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-file.h"
#include "checks/rules.h"
#include "help/explain.h"
#include "support.h"

#include <string.h>

/* Product.md 2: never used, because they promise what nobody here can. */
static const char *const never[]
    = { "compatible",  "supported", "certified",     "qualified", "validated",
        "recommended", "optimal",   "best practice", "score",     "MHz" };

static void
check_text (const LidRule *rule, const char *text, guint least)
{
  g_assert_nonnull (text);
  g_assert_true (g_str_has_suffix (text, "."));
  g_assert_cmpuint (strlen (text), >=, least);
  g_assert_cmpuint (strlen (text), <, 400);
  for (guint i = 0; i < G_N_ELEMENTS (never); i++)
    if (strstr (text, never[i]) != NULL)
      g_test_fail_printf ("%s says %s", rule->id, never[i]);
}

/* Every rule has all of it, none says the same as another, and only what stops names what it
 * stops. */
static void
rules (void)
{
  g_autoptr (GHashTable) whys = g_hash_table_new (g_str_hash, g_str_equal);
  guint n = 0;

  for (; lid_rules[n] != NULL; n++)
    {
      const LidRule *rule = lid_rules[n];
      gboolean stops = (rule->grades & LID_GRADE_BIT (LID_GRADE_STOPS)) != 0;
      g_autoptr (LidExplanation) explanation = lid_explain_rule (rule);
      g_autofree char *text = lid_explain_to_text (explanation);

      check_text (rule, rule->why, 40);
      check_text (rule, rule->clears, 20);
      g_assert_true (g_hash_table_add (whys, (gpointer)rule->why));
      g_assert_cmpuint (rule->grades, !=, 0);
      g_assert_cmpuint (rule->grades >> (LID_GRADE_STOPS + 1), ==, 0);
      g_assert_cmpint (stops, ==, rule->stops != LID_STOPS_NOTHING);
      g_assert_nonnull (strstr (text, rule->why));
      g_assert_nonnull (strstr (text, rule->clears));
      g_assert_nonnull (strstr (text, rule->source));
      g_assert_null (strstr (text, "physics. Source"));
      g_assert_cmpuint (explanation->parts->len, ==, 4);
    }
  g_assert_cmpuint (n, >=, 45);
}

static void
words_of_grades (void)
{
  g_autofree char *first = lid_explain_grades (&lid_rule_first_slot);
  g_autofree char *firmware = lid_explain_grades (&lid_rule_firmware_level);
  g_autofree char *kinds = lid_explain_grades (&lid_rule_mixed_kinds);

  g_assert_cmpstr (first, ==, "stops the slots it names");
  g_assert_cmpstr (firmware, ==, "stops the slots it names and unsure");
  g_assert_cmpstr (kinds, ==, "stops the machine; a board's definition may give another grade");
}

/* A finding's own source goes before its rule's: that of the board. */
static void
finding (void)
{
  LidFinding of = { .rule = &lid_rule_rank_limit,
                    .grade = LID_GRADE_STOPS,
                    .stops = LID_STOPS_SLOTS,
                    .basis = "listed",
                    .source = "Gannet R2 handbook, page 41." };
  g_autoptr (LidExplanation) explanation = lid_explain_finding (&of);
  g_autofree char *text = lid_explain_to_text (explanation);

  g_assert_true (g_str_has_prefix (text, "ranks a channel takes\n  stops: By the rules"));
  g_assert_nonnull (strstr (text, "Source: Gannet R2 handbook, page 41.\n"));
  g_assert_nonnull (strstr (text, lid_rule_rank_limit.why));
}

/* Product.md 6: the assumptions of the model are said as they are for this board. */
static void
model (void)
{
  g_autoptr (LidBoard) board = lid_board_new ();
  g_autofree char *silent = NULL, *told = NULL, *groups = NULL;

  {
    g_autoptr (LidExplanation) explanation = lid_explain_model (board);
    silent = lid_explain_to_text (explanation);
  }
  g_assert_nonnull (strstr (silent, "80 %"));
  g_assert_nonnull (strstr (silent, "from memory"));
  g_assert_nonnull (strstr (silent, "layer by layer"));
  board->ways = 1u << 1 | 1u << 2 | 1u << 6;
  board->efficiency = 7500;
  {
    g_autoptr (LidExplanation) explanation = lid_explain_model (board);
    told = lid_explain_to_text (explanation);
  }
  g_assert_nonnull (strstr (told, "75 %"));
  g_assert_nonnull (strstr (told, "in ways of 1, 2 and 6."));
  board->region_model_told = TRUE;
  board->region_model = LID_REGIONS_EQUAL_GROUPS;
  {
    g_autoptr (LidExplanation) explanation = lid_explain_model (board);
    groups = lid_explain_to_text (explanation);
  }
  g_assert_nonnull (strstr (groups, "none is split"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/explain/rules", rules);
  g_test_add_func ("/explain/grades", words_of_grades);
  g_test_add_func ("/explain/finding", finding);
  g_test_add_func ("/explain/model", model);
  return g_test_run ();
}
