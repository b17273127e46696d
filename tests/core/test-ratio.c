/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/ratio.h"

static void
test_round_halves_up (void)
{
  g_assert_cmpint (lid_ratio_round (lid_ratio (5, 2)), ==, 3);
  g_assert_cmpint (lid_ratio_round (lid_ratio (7, 3)), ==, 2);
  g_assert_cmpint (lid_ratio_round (lid_ratio (-5, 2)), ==, -2);
  g_assert_cmpint (lid_ratio_round (lid_ratio (64000, 3)), ==, 21333);
}

static void
test_compare_exact (void)
{
  /* In double both sides are the same number. */
  LidRatio a = lid_ratio (G_GINT64_CONSTANT (9007199254740993), 2);
  LidRatio b = lid_ratio (G_GINT64_CONSTANT (9007199254740992), 2);

  g_assert_cmpint (lid_ratio_compare (a, b), >, 0);
  g_assert_cmpint (lid_ratio_compare (b, a), <, 0);
  g_assert_cmpint (lid_ratio_compare (lid_ratio (2, 6), lid_ratio (1, 3)), ==, 0);
  g_assert_cmpint (lid_ratio_compare (LID_RATIO_UNKNOWN, lid_ratio (-1, 3)), <, 0);
}

static void
test_unknown_stays_unknown (void)
{
  g_assert_false (lid_ratio_is_known (lid_ratio_add (LID_RATIO_UNKNOWN, lid_ratio (1, 2))));
  g_assert_false (lid_ratio_is_known (lid_ratio_div (lid_ratio (1, 2), lid_ratio (0, 5))));
  g_assert_cmpint (lid_ratio_div (lid_ratio (1, 2), lid_ratio (-3, 4)).num, ==, -2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ratio/round-halves-up", test_round_halves_up);
  g_test_add_func ("/ratio/compare-exact", test_compare_exact);
  g_test_add_func ("/ratio/unknown", test_unknown_stays_unknown);
  return g_test_run ();
}
