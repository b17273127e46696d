/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory modes in words: product.md 2 names them. */
#include "figures/mode-words.h"

static void
check (LidMode mode, guint spare_ranks, gint64 mirrored_mib, const char *words)
{
  LidPopulation population
      = { .mode = mode, .spare_ranks = spare_ranks, .mirrored_mib = mirrored_mib };
  g_autofree char *said = lid_mode_words_new (&population);

  g_assert_cmpstr (said, ==, words);
}

/* A parameter is said where its mode has it, and where it is told. */
static void
test_words (void)
{
  check (LID_MODE_PLAIN, 0, 0, "plain");
  check (LID_MODE_PLAIN, 2, 16384, "plain");
  check (LID_MODE_MIRRORED, 2, 16384, "mirrored");
  check (LID_MODE_PARTLY_MIRRORED, 0, 0, "partly mirrored");
  check (LID_MODE_PARTLY_MIRRORED, 0, 1, "partly mirrored, 1 MB");
  check (LID_MODE_PARTLY_MIRRORED, 0, 16384, "partly mirrored, 16 GB");
  check (LID_MODE_SPARED, 0, 0, "spared by 1 rank");
  check (LID_MODE_SPARED, 1, 0, "spared by 1 rank");
  check (LID_MODE_SPARED, 2, 0, "spared by 2 ranks");
  check (LID_MODE_PAIRED, 0, 16384, "paired (lockstep)");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/mode-words/words", test_words);
  return g_test_run ();
}
