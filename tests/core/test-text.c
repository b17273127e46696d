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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/text/clean", test_clean);
  g_test_add_func ("/text/long", test_long);
  return g_test_run ();
}
