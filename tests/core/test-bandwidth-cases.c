/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Peak bandwidth of LidRate and LidRatio against published values: peak of a channel = exact rate
 * × 8 bytes (product.md 6), decimal MB/s. Each row of the two files names its own source. */
#include "base/rate.h"
#include "base/ratio.h"
#include "support.h"

#include <string.h>

static LidRatio
peak_mbs (LidRate rate, gint64 channels)
{
  return lid_ratio_mul (lid_ratio (rate, 3), lid_ratio (8 * channels, 1));
}

static LidRatio
parse_ratio (const char *text)
{
  char *end;
  gint64 num = g_ascii_strtoll (text, &end, 10);

  return *end == '/' ? lid_ratio (num, g_ascii_strtoll (end + 1, NULL, 10)) : lid_ratio (num, 1);
}

static guint
number (const GPtrArray *rows, guint row, const char *column)
{
  return (guint)g_ascii_strtoull (support_cell (rows, row, column), NULL, 10);
}

/* Source: facts/standards.md section 1 (worked examples W1 to W10 after JEDEC's exact rates). */
static void
test_worked_examples (void)
{
  g_autofree char *path = support_data ("handbook/bandwidth_cases.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);

  g_assert_cmpuint (rows->len, ==, 11);
  for (guint i = 1; i < rows->len; i++)
    {
      LidRate rate = lid_rate_snap (LID_GENERATION_UNKNOWN, number (rows, i, "rate_label_mts"));
      gint64 channels
          = (gint64)number (rows, i, "sockets") * number (rows, i, "channels_filled_per_socket");
      LidRatio peak = peak_mbs (rate, channels);
      double mbs = g_ascii_strtod (support_cell (rows, i, "peak_mb_s"), NULL);
      double gbs = g_ascii_strtod (support_cell (rows, i, "peak_gb_s"), NULL);
      double gib = g_ascii_strtod (support_cell (rows, i, "peak_gib_s"), NULL);

      g_test_message ("%s %s", support_cell (rows, i, "id"), support_cell (rows, i, "case"));
      g_assert_cmpint (lid_ratio_compare (lid_ratio (rate, 3),
                                          parse_ratio (support_cell (rows, i, "rate_exact_mts"))),
                       ==, 0);
      g_assert_cmpuint (number (rows, i, "bytes_per_transfer"), ==, 8);
      g_assert_cmpfloat_with_epsilon (lid_ratio_to_double (peak), mbs, 0.005001);
      g_assert_cmpfloat_with_epsilon (lid_ratio_to_double (peak) / 1e3, gbs, 0.005001);
      g_assert_cmpfloat_with_epsilon (lid_ratio_to_double (peak) * 1e6 / (1 << 30), gib, 0.005001);
      g_assert_cmpint (lid_ratio_round (peak), ==, (gint64)(mbs + 0.5));
    }
}

/* C22 and W9: a registered DDR5 module moves 2 × 40 wires, of which 64 are data. */
static void
test_check_bits_do_not_count (void)
{
  LidRatio data = peak_mbs (lid_rate_snap (LID_GENERATION_DDR5, 4800), 1);
  LidRatio wires = lid_ratio_mul (data, lid_ratio (80, 64));

  g_assert_cmpint (lid_ratio_round (data), ==, 38400);
  g_assert_cmpint (lid_ratio_round (wires), ==, 48000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bandwidth-cases/worked-examples", test_worked_examples);
  g_test_add_func ("/bandwidth-cases/check-bits", test_check_bits_do_not_count);
  return g_test_run ();
}
