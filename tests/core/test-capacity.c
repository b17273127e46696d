/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Capacities against published totals. What is left out of them: tests/cases/figures. */
#include "figures-case.h"
#include "figures/capacity.h"
#include "support.h"

#include <string.h>

/* "24 modules x 16 GB" on a board of one slot a channel. */
static FiguresCase *
fit_words (const char *words)
{
  const char *times = strstr (words, " x ");
  guint n = (guint)g_ascii_strtoull (words, NULL, 10);
  g_autoptr (GString) slots = g_string_new (NULL);

  g_assert_nonnull (times);
  for (guint i = 0; i < n / 4; i++)
    g_string_append_printf (slots, "%s2", i > 0 ? ", " : "");
  return figures_case_parse (
      "{\"layout\": {\"sockets\": 2, \"slots\": [%s]}, \"put\": {\"m\": \"*\"}, \"modules\": "
      "{\"m\": {\"capacity_mib\": %" G_GUINT64_FORMAT "}}}",
      slots->str, g_ascii_strtoull (times + 3, NULL, 10) * 1024);
}

/* Source: tests/data/handbook/handbook_checks.csv, area "capacity", C23 to C30; each row names its
 * own (S12, S15, S18, published totals). */
static void
test_handbook (void)
{
  g_autofree char *path = support_data ("handbook/handbook_checks.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);
  guint checked = 0;

  for (guint i = 1; i < rows->len; i++)
    {
      g_autoptr (FiguresCase) c = NULL;

      if (strcmp (support_cell (rows, i, "area"), "capacity") != 0)
        continue;
      checked++;
      g_test_message ("%s: %s", support_cell (rows, i, "id"), support_cell (rows, i, "source"));
      c = fit_words (support_cell (rows, i, "input"));
      g_assert_cmpint (c->figures.capacity_mib, ==,
                       g_ascii_strtoll (support_cell (rows, i, "expected"), NULL, 10) * 1024);
      g_assert_cmpint (c->figures.usable_mib, ==, c->figures.capacity_mib);
      g_assert_cmpint (c->figures.fitted_mib, ==, c->figures.capacity_mib);
      g_assert_true (c->figures.capacity_known);
    }
  g_assert_cmpuint (checked, ==, 8);
}

/* Channels and machine agree, and what is stopped is in neither. */
static void
test_channels_add_up (void)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"sockets\": 2, \"slots\": [2, 1]}, \"put\": {\"a\": \"1-A1 1-B1\", \"b\": "
      "\"1-A2 2-A1\", \"c\": \"2-A2\"}, \"unusable\": \"1-A2\", \"modules\": {\"a\": "
      "{\"capacity_mib\": 8192}, \"b\": {\"capacity_mib\": 4096}, \"c\": {}}}");
  const LidChannelFigures *channels = c->figures.channels;

  g_assert_cmpint (channels[0].usable_mib, ==, 8192);
  g_assert_cmpuint (channels[0].modules, ==, 1);
  g_assert_cmpint (channels[1].usable_mib, ==, 8192);
  g_assert_true (channels[1].capacity_known);
  g_assert_cmpint (channels[2].usable_mib, ==, 4096);
  g_assert_cmpuint (channels[2].modules, ==, 2);
  g_assert_false (channels[2].capacity_known);
  g_assert_false (c->figures.capacity_known);
  g_assert_cmpint (lid_capacity_fitted (c->survey), ==, 24576);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/capacity/handbook", test_handbook);
  g_test_add_func ("/capacity/channels-add-up", test_channels_add_up);
  return g_test_run ();
}
