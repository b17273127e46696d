/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"

static const struct
{
  gint64 mib;
  const char *text;
} capacities[] = {
  { 0, "0 GB" },
  { 512, "512 MB" },
  { 1536, "1536 MB" },
  { 98304, "96 GB" },
  { 11776, "11.5 GB" },
  { 1047552, "1023 GB" },
  { 1048576, "1 TB (1024 GB)" },
  { 1572864, "1.5 TB (1536 GB)" },
  { 1307443, "1.2 TB (1276.7 GB)" },
};

static void
test_capacity (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (capacities); i++)
    {
      g_autofree char *text = lid_units_capacity (capacities[i].mib);
      g_assert_cmpstr (text, ==, capacities[i].text);
    }
}

static void
test_bandwidth (void)
{
  g_autofree char *a = lid_units_bandwidth (23467), *b = lid_units_bandwidth (112640);
  g_autofree char *c = lid_units_bandwidth (99949), *d = lid_units_bandwidth (99950);
  g_autofree char *e = lid_units_bandwidth_range (18773, 112640);

  g_assert_cmpstr (a, ==, "23.5 GB/s");
  g_assert_cmpstr (b, ==, "113 GB/s");
  g_assert_cmpstr (c, ==, "99.9 GB/s");
  g_assert_cmpstr (d, ==, "100 GB/s");
  g_assert_cmpstr (e, ==, "19 to 113 GB/s");
}

static void
test_setup_screen (void)
{
  g_autofree char *text = lid_units_capacity_mb (98304);

  g_assert_cmpstr (text, ==, "98304 MB");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/units/capacity", test_capacity);
  g_test_add_func ("/units/bandwidth", test_bandwidth);
  g_test_add_func ("/units/setup-screen", test_setup_screen);
  return g_test_run ();
}
