/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/smbios-words.h"

#include <string.h>

/* Sizes as dmidecode 3.4 prints 0Ch and 1Ch of type 17 (seen over tests/cli/random_dumps.py). */
static void
test_sizes (void)
{
  static const struct
  {
    const char *text;
    gint64 kib;
  } cases[] = {
    { "No Module Installed", 0 },
    { "Not Installed", 0 },
    { "0 kB", 0 },
    { "512 kB", 512 },
    { "1025 MB", 1025 * 1024 },
    { "31 GB", 31 * 1024 * 1024 },
    { "3 TB", G_GINT64_CONSTANT (3) << 30 },
    { "0 TB", -1 }, /* 7FFFh with an extended size of 0: a module all the same */
    { "Unknown", -1 },
    { "16 G", -1 },
    { "99999999999999999999 GB", -1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      LidBytes text = { (const guint8 *)cases[i].text, strlen (cases[i].text) };

      g_test_message ("%s", cases[i].text);
      g_assert_cmpint (lid_smbios_words_size_kib (text), ==, cases[i].kib);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/smbios-words/sizes", test_sizes);
  return g_test_run ();
}
