/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/text.h"

#include <string.h>

static void
test_clean (void)
{
  static const struct
  {
    const char *foreign, *clean;
  } cases[] = {
    { "  A1  ", "A1" },
    { "\tCPU\t1\n", "CPU 1" },
    { "caf\xc3\xa9", "caf\xc3\xa9" },
    { "caf\xe9", "caf\xc3\xa9" }, /* Latin-1 */
    { "cut \xc3", "cut \xc3\x83" },
    /* What becomes a blank at an end goes with the blanks (found by tests/cli/random_dumps.py). */
    { "\x7f"
      "A1",
      "A1" },
    { "A1 \x80", "A1" },
    { "\xc2\x85"
      "A1 \xc2\xa0",
      "A1" },
    { "A\xa0"
      "1\xa0",
      "A 1" },
    { "\x01\x80\xa0", "" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *clean = lid_text_clean (cases[i].foreign, -1);
      g_assert_cmpstr (clean, ==, cases[i].clean);
    }
}

/* Cut to a length, and no blank is left where it was cut. */
static void
test_long (void)
{
  g_autofree char *letters = g_strnfill (LID_TEXT_MAX - 1, 'x');
  g_autofree char *foreign = g_strconcat (letters, "  tail", NULL);
  g_autofree char *clean = lid_text_clean (foreign, -1);

  g_assert_cmpstr (clean, ==, letters);
}

/* Unicode Character Database 14.0, UnicodeData.txt, field 14 (simple titlecase mapping): 00FC to
 * 00DC, 01C6 (one letter, dz with caron) to 01C5, not to 01C4; a digit has none. */
static void
test_begin (void)
{
  static const struct
  {
    const char *text;
    const char *begun;
  } rows[]
      = { { "tonight", "Tonight" },   { "Tonight", "Tonight" },   { "\u00fcbrig", "\u00dcbrig" },
          { "\u01c6ep", "\u01c5ep" }, { "2 visits", "2 visits" }, { "", "" } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *begun = lid_text_begin (rows[i].text);

      g_assert_cmpstr (begun, ==, rows[i].begun);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/text/clean", test_clean);
  g_test_add_func ("/text/long", test_long);
  g_test_add_func ("/text/begin", test_begin);
  return g_test_run ();
}
