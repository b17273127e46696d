/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Source: data_rates.csv, every JEDEC rate and grade of DDR3, DDR4 and DDR5, each row with its own
 * source (JESD79-3F, JESD79-4, JESD79-5 bins). */
#include "facts/label-tables.h"
#include "support.h"

#include <string.h>

static LidRate
rate_of (const GPtrArray *rows, guint i, LidGeneration *generation)
{
  *generation = lid_generation_from_text (support_cell (rows, i, "generation"));
  return lid_rate_snap (*generation,
                        (guint)g_ascii_strtoull (support_cell (rows, i, "nominal_mts"), NULL, 10));
}

static void
test_rows_are_known (void)
{
  g_autofree char *path = support_data ("rates/data_rates.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);

  for (guint i = 1; i < rows->len; i++)
    {
      const char *grade = support_cell (rows, i, "grade");
      const char *name = support_cell (rows, i, "bandwidth_name");
      guint clocks = (guint)g_ascii_strtoull (support_cell (rows, i, "trcd"), NULL, 10);
      LidGeneration generation;
      LidRate rate = rate_of (rows, i, &generation);

      g_test_message ("%s %s %s", support_cell (rows, i, "generation"),
                      support_cell (rows, i, "nominal_mts"), grade);
      if (generation == LID_GENERATION_DDR3)
        {
          const char *number = support_cell (rows, i, "label_number") + 4;

          g_assert_cmpuint (lid_label_tables_bandwidth_rate (number, strlen (number)), ==, rate);
          g_assert_cmpstr (lid_label_tables_bandwidth_name (generation, rate), ==, name + 4);
          continue;
        }
      g_assert_true (lid_label_tables_has_grade (generation, rate, grade));
      if (generation == LID_GENERATION_DDR4)
        {
          g_assert_cmpuint (lid_label_tables_grade_clocks (grade), ==, clocks);
          g_assert_cmpstr (lid_label_tables_bandwidth_name (generation, rate), ==, name + 4);
        }
    }
}

/* No pair beyond the table's, save grade A of DDR5, which the grammar has without a timing. */
static void
test_nothing_else_is_known (void)
{
  static const char *const grades[] = { "J", "K", "L",  "M",  "N", "P",  "R", "T",  "U", "V",
                                        "W", "Y", "AA", "AC", "A", "AN", "B", "BN", "C", "X" };
  g_autofree char *path = support_data ("rates/data_rates.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);
  guint pairs = 0;

  for (guint g = LID_GENERATION_DDR4; g <= LID_GENERATION_DDR5; g++)
    {
      gsize n_steps;
      const LidRate *steps = lid_rate_steps (g, &n_steps);

      for (gsize r = 0; r < n_steps; r++)
        for (guint k = 0; k < G_N_ELEMENTS (grades); k++)
          {
            gboolean row = g == LID_GENERATION_DDR5 && strcmp (grades[k], "A") == 0;

            for (guint i = 1; i < rows->len && !row; i++)
              {
                LidGeneration generation;

                row = rate_of (rows, i, &generation) == steps[r] && generation == g
                      && strcmp (support_cell (rows, i, "grade"), grades[k]) == 0;
              }
            g_assert_true (lid_label_tables_has_grade (g, steps[r], grades[k]) == row);
            pairs += (guint)row;
          }
    }
  g_assert_cmpuint (pairs, >, 80);
  g_assert_false (lid_label_tables_has_grade (LID_GENERATION_DDR4, 9600, ""));
  g_assert_false (lid_label_tables_has_grade (LID_GENERATION_DDR4, 9600, "W, AA"));
}

static void
test_letters (void)
{
  for (guint c = 0; c < 256; c++)
    {
      gboolean card = c != 0 && strchr ("ABCDEFGHJKLMNPRTUVWY", (int)c) != NULL;

      g_assert_true (lid_label_tables_is_card_letter ((char)c) == card);
      for (guint g = LID_GENERATION_DDR3; g <= LID_GENERATION_DDR5; g++)
        {
          const LidLabelType *type = lid_label_tables_type (g, (char)c);
          gboolean said
              = c > ' ' && c != ',' && strchr (lid_label_tables_type_letters (g), (int)c) != NULL;

          g_assert_true ((type != NULL) == said);
          g_assert_true (type == NULL || type->ecc != 0 || type->check_bits == 0);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/label-tables/rows-are-known", test_rows_are_known);
  g_test_add_func ("/label-tables/nothing-else", test_nothing_else_is_known);
  g_test_add_func ("/label-tables/letters", test_letters);
  return g_test_run ();
}
