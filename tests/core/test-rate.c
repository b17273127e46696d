/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/rate.h"
#include "support.h"

/* Source: JEDEC steps as collected in shared/facts/data_rates.csv, each row with its own source. */
static void
test_steps_against_table (void)
{
  g_autofree char *path = support_data ("rates/data_rates.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);

  g_assert_cmpuint (rows->len, >, 80);
  for (guint i = 1; i < rows->len; i++)
    {
      LidGeneration generation = lid_generation_from_text (support_cell (rows, i, "generation"));
      guint nominal = (guint)g_ascii_strtoull (support_cell (rows, i, "nominal_mts"), NULL, 10);
      double exact = g_ascii_strtod (support_cell (rows, i, "exact_mts"), NULL);
      double peak = g_ascii_strtod (support_cell (rows, i, "peak_mb_s_64bit"), NULL);
      LidRate rate = lid_rate_snap (generation, nominal);

      g_assert_true (lid_rate_is_step (generation, rate));
      g_assert_cmpuint (lid_rate_mts (rate), ==, nominal);
      g_assert_cmpfloat_with_epsilon (rate / 3.0, exact, 0.006);
      g_assert_cmpfloat_with_epsilon (rate * 8 / 3.0, peak, 0.006);
    }
}

static void
test_snapping (void)
{
  g_assert_cmpuint (lid_rate_snap (LID_GENERATION_DDR4, 2667), ==, 8000);
  g_assert_cmpuint (lid_rate_snap (LID_GENERATION_DDR4, 2668), ==, 8000);
  g_assert_cmpuint (lid_rate_snap (LID_GENERATION_DDR4, 2669), ==, 3 * 2669);
  g_assert_cmpuint (lid_rate_snap (LID_GENERATION_DDR2, 667), ==, 2000);
  g_assert_cmpuint (lid_rate_mts (2000), ==, 667);
  g_assert_cmpuint (lid_rate_snap (LID_GENERATION_UNKNOWN, 1067), ==, 3200);
  g_assert_cmpuint (lid_rate_snap (LID_GENERATION_DDR3, 978), ==, 3 * 978);
  g_assert_cmpuint (lid_rate_snap (LID_GENERATION_DDR3, 0), ==, LID_RATE_UNKNOWN);
  g_assert_cmpuint (lid_rate_exact (4000000), ==, LID_RATE_UNKNOWN);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rate/steps-against-table", test_steps_against_table);
  g_test_add_func ("/rate/snapping", test_snapping);
  return g_test_run ();
}
