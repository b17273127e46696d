/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/label.h"
#include "support.h"

#include <string.h>

static LidLabel
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  LidLabel label;

  lid_label_parse (text, -1, &label, NULL, &error);
  g_assert_no_error (error);
  return label;
}

/* Of every case: all facts but height known, basis label, values those of the decoded label. */
static void
test_cases (void)
{
  g_autofree char *path = support_data ("label/label_cases.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);

  for (guint i = 1; i < rows->len; i++)
    {
      LidLabel label = parse (support_cell (rows, i, "label"));
      g_autoptr (LidModule) m = lid_label_facts_to_module (&label);
      /* "8Rx4" of shops hides the stack: L063. */
      guint32 missing
          = strcmp (support_cell (rows, i, "id"), "L063") == 0 ? 1u << LID_FACT_STACK : 0;

      g_assert_cmpuint (lid_module_missing_facts (m), ==, missing);
      for (guint f = 0; f < LID_N_FACTS; f++)
        g_assert_true (m->basis[f] == LID_BASIS_LABEL || m->basis[f] == LID_BASIS_NONE);
      g_assert_cmpint (lid_module_generation (m), ==, label.generation);
      g_assert_cmpint (lid_module_kind (m), ==, label.kind);
      g_assert_cmpint (lid_module_capacity (m), ==, label.capacity_mib);
      g_assert_cmpuint (lid_module_rated (m), ==, label.rated);
      g_assert_cmpint (lid_module_get (m, LID_FACT_RANKS, 0), ==, label.ranks);
      g_assert_cmpint (lid_module_get (m, LID_FACT_LOGICAL_RANKS, 0), ==, label.logical_ranks);
      g_assert_cmpint (lid_module_get (m, LID_FACT_CHIP_WIDTH, 0), ==, label.chip_width);
      g_assert_cmpint (lid_module_get (m, LID_FACT_FORM, 0), ==, lid_kind_form (label.kind));
      g_assert_cmpint (lid_module_get (m, LID_FACT_ECC, -1), ==, label.ecc);
      g_assert_cmpint (lid_module_get (m, LID_FACT_CHECK_BITS, -1), ==, label.check_bits);
      g_assert_cmpint (lid_module_get (m, LID_FACT_DIE, 0), ==, label.die_gbit);
      g_assert_cmpint (lid_module_get (m, LID_FACT_VOLTAGE, 0), ==, label.voltages);
      g_assert_cmpstr (m->label, ==, support_cell (rows, i, "label"));
    }
}

static void
test_short_form_is_told (void)
{
  LidLabel label = parse ("32g 2rx4 3200 registered");
  g_autoptr (LidModule) module = lid_label_facts_to_module (&label);

  g_assert_cmpint (module->basis[LID_FACT_KIND], ==, LID_BASIS_TOLD);
  g_assert_cmpint (module->basis[LID_FACT_GENERATION], ==, LID_BASIS_NONE);
  g_assert_cmpint (module->basis[LID_FACT_CHECK_BITS], ==, LID_BASIS_NONE);
  g_assert_null (module->label);
}

/* The label outranks the inventory, SPD outranks the label, what it does not tell stays. */
static void
test_weight (void)
{
  LidLabel label = parse ("32GB 2Rx4 PC4-3200AA-R");
  g_autoptr (LidModule) module = lid_module_new ();

  lid_module_set (module, LID_FACT_RANKS, 1, LID_BASIS_INVENTORY);
  lid_module_set (module, LID_FACT_CHIP_WIDTH, 8, LID_BASIS_SPD);
  lid_module_set (module, LID_FACT_HEIGHT, 3125, LID_BASIS_TOLD);
  lid_label_facts_apply (&label, module);
  g_assert_cmpint (lid_module_get (module, LID_FACT_RANKS, 0), ==, 2);
  g_assert_cmpint (lid_module_get (module, LID_FACT_CHIP_WIDTH, 0), ==, 8);
  g_assert_cmpint (lid_module_get (module, LID_FACT_HEIGHT, 0), ==, 3125);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/label-facts/cases", test_cases);
  g_test_add_func ("/label-facts/short-form-is-told", test_short_form_is_told);
  g_test_add_func ("/label-facts/weight", test_weight);
  return g_test_run ();
}
