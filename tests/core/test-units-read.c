/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/units-read.h"
#include "base/units.h"

#include <string.h>

static void
capacity (void)
{
  static const struct
  {
    const char *text;
    gint64 mib; /* -1: none */
  } cases[] = {
    { "64", 65536 },       { " 64 GB ", 65536 }, { "64gb", 65536 },     { "0", 0 },
    { "512 MB", 512 },     { "0.5", 512 },       { "0,5 GB", 512 },     { "1.5 TB", 1572864 },
    { "1.5TiB", 1572864 }, { "", -1 },           { "GB", -1 },          { "64 GBs", -1 },
    { "-1", -1 },          { "1.", -1 },         { "1..5", -1 },        { "0.0001", -1 },
    { "1.3 MB", -1 },      { "64 MHz", -1 },     { "99999999999", -1 }, { "999999999 TB", -1 },
    { "1e3", -1 },         { "６４", -1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      gint64 mib = -1;
      gboolean ok = lid_units_read_capacity (cases[i].text, &mib, &error);

      if (ok != (cases[i].mib >= 0) || mib != cases[i].mib)
        g_test_fail_printf ("“%s”: %" G_GINT64_FORMAT, cases[i].text, mib);
      g_assert_true (ok || strstr (error->message, cases[i].text) != NULL);
    }
}

/* What the program writes it can read. */
static void
there_and_back (void)
{
  for (gint64 mib = 1; mib < 4096 * 1024; mib += 1024)
    {
      g_autofree char *text = lid_units_capacity (mib - 1), *first = NULL;
      gint64 read = -1;

      first = g_strndup (text, strcspn (text, "("));
      g_assert_true (lid_units_read_capacity (first, &read, NULL));
      g_assert_cmpint (read, <=, mib - 1); /* tenths are cut where they are written */
      g_assert_true (mib > 1024 * 1024 || read == mib - 1);
    }
}

static void
rate (void)
{
  LidRate read = 0;
  static const char *const bad[] = { "", "fast", "2933 MHz", "0", "2933.5", "-1", "200001" };

  g_assert_true (lid_units_read_rate ("2666", LID_GENERATION_DDR4, &read, NULL));
  g_assert_cmpuint (read, ==, 8000); /* thirds: exactly 2666 2/3 (JESD79-4) */
  g_assert_true (lid_units_read_rate (" 2933 mt/s", LID_GENERATION_DDR4, &read, NULL));
  g_assert_cmpuint (lid_rate_mts (read), ==, 2933);
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (lid_units_read_rate (bad[i], LID_GENERATION_UNKNOWN, &read, &error));
      g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/units-read/capacity", capacity);
  g_test_add_func ("/units-read/there-and-back", there_and_back);
  g_test_add_func ("/units-read/rate", rate);
  return g_test_run ();
}
