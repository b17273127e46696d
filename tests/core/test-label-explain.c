/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/label.h"
#include "support.h"

#include <string.h>

/* The explained fields, put together without what stands between them, are the printed label. */
static void
test_nothing_is_left_out (void)
{
  g_autofree char *path = support_data ("label/label_cases.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);

  for (guint i = 1; i < rows->len; i++)
    {
      g_autoptr (GString) bare = g_string_new (NULL), joined = g_string_new (NULL);
      g_autoptr (GPtrArray) parts = NULL;
      LidLabel label;

      for (const char *at = support_cell (rows, i, "label"); *at != 0; at++)
        if (strchr (" -", *at) == NULL)
          g_string_append_c (bare, *at);
      g_assert_true (lid_label_parse (support_cell (rows, i, "label"), -1, &label, NULL, NULL));
      parts = lid_label_explain (&label);
      for (guint k = 0; k < parts->len; k++)
        {
          const LidLabelPart *part = parts->pdata[k];

          g_string_append (joined, part->text);
          g_assert_cmpuint (strlen (part->meaning), >, 4);
        }
      g_assert_cmpstr (joined->str, ==, bare->str);
    }
}

static void
test_order_and_meaning (void)
{
  static const struct
  {
    LidLabelField field;
    const char *text, *meaning;
  } expected[] = {
    { LID_LABEL_FIELD_QUANTITY, "16×", "16 modules of this kind" },
    { LID_LABEL_FIELD_CAPACITY, "128GB", "131072 MiB of data; check bits do not count" },
    { LID_LABEL_FIELD_RANKS, "2S4R",
      "2 package ranks of stacked dies (3DS), 4 logical ranks each: 8 in all, one load a package" },
    { LID_LABEL_FIELD_CHIP_WIDTH, "x4", "4 data wires a chip; that makes dies of 8 Gbit" },
    { LID_LABEL_FIELD_GENERATION, "PC4", "DDR4; other generations do not go into its slots" },
    { LID_LABEL_FIELD_RATE, "2666", "2666 MT/s at most, 21.3 GB/s over one channel" },
    { LID_LABEL_FIELD_GRADE, "V", "timing: 19 clocks from row to column (tRCD)" },
    { LID_LABEL_FIELD_TYPE, "L", "load-reduced DIMM, 8 check bits" },
    { LID_LABEL_FIELD_CARD, "A", "built on the standard's circuit board A" },
    { LID_LABEL_FIELD_CARD_REVISION, "1", "revision 1 of that board" },
    { LID_LABEL_FIELD_SPD_REVISION, "12", "written after revision 1.2 of the SPD standard" },
    { LID_LABEL_FIELD_MAKER_SUFFIX, "MA0", "the maker's own mark, outside the standard" },
  };
  g_autoptr (GPtrArray) parts = NULL;
  LidLabel label;

  g_assert_true (lid_label_parse ("16x 128GB 2S4Rx4 PC4-2666V-LA1-12-MA0", -1, &label, NULL, NULL));
  parts = lid_label_explain (&label);
  g_assert_cmpuint (parts->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < parts->len; i++)
    {
      const LidLabelPart *part = parts->pdata[i];

      g_assert_cmpint (part->field, ==, expected[i].field);
      g_assert_cmpstr (part->text, ==, expected[i].text);
      g_assert_cmpstr (part->meaning, ==, expected[i].meaning);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/label-explain/nothing-left-out", test_nothing_is_left_out);
  g_test_add_func ("/label-explain/order-and-meaning", test_order_and_meaning);
  return g_test_run ();
}
