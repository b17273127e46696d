/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Capacities by channel. Published totals: tests/outside/test-handbook.c; what is left out of them:
 * tests/cases/figures. */
#include "figures-case.h"
#include "figures/capacity.h"
#include "support.h"

#include <string.h>

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

/* What keeps data without power is no memory, seen or not. */
static void
test_persistent (void)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"slots\": [3]}, \"put\": {\"a\": \"1-A1 1-A2\", \"p\": \"1-A3\"}, "
      "\"modules\": {\"a\": {\"capacity_mib\": 8192}, \"p\": {\"capacity_mib\": 4096, "
      "\"persistent\": true}}, \"not_seen\": \"1-A3\"}");

  g_assert_cmpint (lid_capacity_fitted (c->survey), ==, 16384);
  g_assert_false (lid_capacity_counts (c->survey, NULL, 2));
  g_assert_true (lid_capacity_counts (c->survey, NULL, 1));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/capacity/channels-add-up", test_channels_add_up);
  g_test_add_func ("/capacity/persistent", test_persistent);
  return g_test_run ();
}
