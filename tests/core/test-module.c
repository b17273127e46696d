/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/label.h"

#include <string.h>

static LidModule *
from_label (const char *text, const char *part)
{
  LidLabel label;
  LidModule *module;

  g_assert_true (lid_label_parse (text, -1, &label, NULL, NULL));
  module = lid_label_facts_to_module (&label);
  lid_module_set_text (&module->part, part);
  return module;
}

/* product.md 3: the same only by equal part number, or with all rule-relevant facts known and
 * equal. */
static const struct
{
  const char *a, *a_part, *b, *b_part;
  gboolean same;
} pairs[] = {
  { "32GB 2Rx4 PC4-3200AA-R", "TP-1", "32GB 2Rx4 PC4-3200AA-R", "TP-1", TRUE },
  { "32GB 2Rx4 PC4-3200AA-R", "TP-1", "32g reg", "TP-1", TRUE },
  { "32GB 2Rx4 PC4-3200AA-R", NULL, "32GB 2Rx4 PC4-3200AA-RB2-12", NULL, TRUE },
  { "32GB 2Rx4 PC4-3200AA-R", "TP-1", "32GB 2Rx4 PC4-3200AA-R", "AB-7", TRUE },
  { "32GB 2Rx4 PC4-3200AA-R", "TP-1", "32GB 2Rx4 PC4-3200AA-R", NULL, TRUE },
  { "32GB 2Rx4 PC4-3200AA-R", NULL, "32GB 2Rx4 PC4-2933Y-R", NULL, FALSE },
  { "32GB 2Rx4 PC4-3200AA-R", NULL, "32GB 2Rx8 PC4-3200AA-R", NULL, FALSE },
  { "32GB 2Rx4 PC4-3200AA-R", NULL, "32GB 2Rx4 PC4-3200AA-L", NULL, FALSE },
  { "64GB 4Rx4 PC4-2666V-L", NULL, "64GB 4DRx4 PC4-2666V-L", NULL, FALSE },
  { "64GB 2Rx4 PC5-4800B-R", NULL, "64GB 2Rx4 PC5-4800B-P", NULL, FALSE },
  { "8GB 2Rx8 PC3-12800E", NULL, "8GB 2Rx8 PC3L-12800E", NULL, FALSE },
  { "32g reg", NULL, "32g reg", NULL, FALSE }, /* equal as far as told is not the same */
  { "32g 2rx4 3200 registered", NULL, "32g 2rx4 3200 registered", NULL, FALSE },
};

static void
test_same (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      g_autoptr (LidModule) a = from_label (pairs[i].a, pairs[i].a_part);
      g_autoptr (LidModule) b = from_label (pairs[i].b, pairs[i].b_part);

      g_test_message ("%u: %s, %s", i, pairs[i].a, pairs[i].b);
      g_assert_true (lid_module_same (a, b) == pairs[i].same);
      g_assert_true (lid_module_same (b, a) == pairs[i].same);
      g_assert_true (lid_module_same (a, a));
      b->persistent = TRUE;
      g_assert_false (lid_module_same (a, b));
    }
}

/* Each rule-relevant fact alone, unknown or of another value, ends sameness; height does not. */
static void
test_same_fact_by_fact (void)
{
  for (guint i = 0; i < LID_N_FACTS; i++)
    {
      g_autoptr (LidModule) a = from_label ("32GB 2Rx4 PC4-3200AA-R", NULL);
      g_autoptr (LidModule) b = lid_module_copy (a), c = lid_module_copy (a);
      gboolean relevant = lid_fact_is_rule_relevant (i);

      lid_module_set (b, i, 0, LID_BASIS_NONE);
      lid_module_set (c, i, a->value[i] + 1, LID_BASIS_LABEL);
      g_assert_true (lid_module_same (a, b) != relevant);
      g_assert_true (lid_module_same (a, c) != relevant);
      g_assert_true (lid_module_missing_facts (b) == (relevant ? 1u << i : 0));
    }
}

static void
test_copy_and_count (void)
{
  g_autoptr (LidModule) a = from_label ("32GB 2Rx4 PC4-3200AA-RB2-12", "TP-1"), copy = NULL;

  copy = lid_module_copy (a);
  g_assert_true (lid_module_ref (a) == a);
  lid_module_unref (a);
  g_assert_cmpint (a->ref_count, ==, 1);
  g_assert_cmpint (copy->ref_count, ==, 1);
  g_assert_true (copy->label != a->label);
  g_assert_cmpstr (copy->label, ==, "32GB 2Rx4 PC4-3200AA-RB2-12");
  lid_module_set_text (&copy->part, "");
  g_assert_null (copy->part);
  lid_module_unref (NULL);
}

static void
test_unknown_is_a_value (void)
{
  g_autoptr (LidModule) module = lid_module_new ();

  g_assert_false (lid_module_knows (module, LID_FACT_ECC));
  g_assert_cmpint (lid_module_get (module, LID_FACT_ECC, -1), ==, -1);
  lid_module_set (module, LID_FACT_ECC, 0, LID_BASIS_TOLD);
  g_assert_true (lid_module_knows (module, LID_FACT_ECC));
  g_assert_cmpint (lid_module_get (module, LID_FACT_ECC, -1), ==, 0);
  lid_module_set (module, LID_FACT_ECC, 1, LID_BASIS_NONE);
  g_assert_cmpint (lid_module_get (module, LID_FACT_ECC, -1), ==, -1);
  g_assert_cmpint (lid_module_kind (module), ==, LID_KIND_UNKNOWN);
  g_assert_cmpint (lid_module_capacity (module), ==, 0);
}

static void
test_describe (void)
{
  static const char *const texts[][2] = {
    { "32GB 2Rx4 PC4-3200AA-R", "32 GB 2Rx4 registered 3200" },
    { "128GB 2S4Rx4 PC4-2666V-L", "128 GB 2S4Rx4 load-reduced 2666" },
    { "64GB 4DRx4 PC4-2666V-L", "64 GB 4DRx4 load-reduced 2666" },
    { "512MB 1Rx16 PC3-8500U", "512 MB 1Rx16 unbuffered 1066" },
    { "16g ecc", "16 GB" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (LidModule) module = from_label (texts[i][0], NULL);
      g_autofree char *text = lid_module_describe (module);

      g_assert_cmpstr (text, ==, texts[i][1]);
    }
}

/* Words in files go both ways, and no two are alike. */
static void
test_words (void)
{
  for (guint i = 0; i < LID_N_FACTS; i++)
    {
      gboolean found = FALSE;

      g_assert_cmpint (lid_fact_from_text (lid_fact_to_text (i), &found), ==, i);
      g_assert_true (found);
      g_assert_nonnull (lid_fact_where_printed (i));
    }
  for (guint i = 1; i < LID_N_BASES; i++)
    g_assert_cmpint (lid_basis_from_text (lid_basis_to_text (i)), ==, i);
  for (guint i = 1; i < LID_N_KINDS; i++)
    {
      g_assert_cmpint (lid_kind_from_text (lid_kind_to_text (i)), ==, i);
      g_assert_true ((strncmp (lid_kind_to_text (i), "so-", 3) == 0)
                     == (lid_kind_form (i) == LID_FORM_SO_DIMM));
    }
  for (guint i = 1; i < LID_N_FORMS; i++)
    g_assert_cmpint (lid_form_from_text (lid_form_to_text (i)), ==, i);
  g_assert_cmpint (lid_kind_from_text (NULL), ==, LID_KIND_UNKNOWN);
  g_assert_cmpint (lid_basis_from_text (NULL), ==, LID_BASIS_NONE);
  g_assert_null (lid_kind_to_text (LID_KIND_UNKNOWN));
}

static void
test_voltages (void)
{
  LidVoltages both = lid_voltage_from_mv (1500) | lid_voltage_from_mv (1350);

  g_assert_cmpuint (both, ==, LID_VOLTAGE_1500 | LID_VOLTAGE_1350);
  g_assert_cmpuint (lid_voltage_lowest_mv (both), ==, 1350);
  g_assert_cmpuint (lid_voltage_lowest_mv (0), ==, 0);
  g_assert_cmpuint (lid_voltage_from_mv (3300), ==, 0);
  for (guint i = 0; i < 7; i++)
    g_assert_cmpuint (lid_voltage_from_mv (lid_voltage_lowest_mv (1u << i)), ==, 1u << i);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/module/same", test_same);
  g_test_add_func ("/module/same-fact-by-fact", test_same_fact_by_fact);
  g_test_add_func ("/module/copy-and-count", test_copy_and_count);
  g_test_add_func ("/module/unknown-is-a-value", test_unknown_is_a_value);
  g_test_add_func ("/module/describe", test_describe);
  g_test_add_func ("/module/words", test_words);
  g_test_add_func ("/module/voltages", test_voltages);
  return g_test_run ();
}
