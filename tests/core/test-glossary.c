/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "help/glossary.h"
#include "support.h"

#include <string.h>

/* Product.md 2: never used, because they promise what nobody here can. */
static const char *const never[]
    = { "compatible",  "supported", "certified",     "qualified", "validated",
        "recommended", "optimal",   "best practice", "score" };

static void
all (void)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) names = g_hash_table_new (g_str_hash, g_str_equal);
  gboolean filled[LID_N_WORD_GROUPS] = { FALSE };
  const LidWord *words;
  guint n;

  words = lid_glossary_all (&n);
  for (guint i = 0; i < n; i++)
    {
      g_assert_true (g_hash_table_add (ids, (gpointer)words[i].id));
      g_assert_true (g_hash_table_add (names, (gpointer)words[i].word));
      g_assert_true (g_str_has_suffix (words[i].text, "."));
      g_assert_cmpuint (strlen (words[i].text), <, 330);
      g_assert_true (i == 0 || words[i].group >= words[i - 1].group);
      for (guint k = 0; k < G_N_ELEMENTS (never); k++)
        g_assert_null (strstr (words[i].text, never[k]));
      filled[words[i].group] = TRUE;
    }
  for (guint i = 0; i < LID_N_WORD_GROUPS; i++)
    {
      g_assert_true (filled[i]);
      g_assert_nonnull (lid_glossary_group ((LidWordGroup)i));
    }
}

/* Every word of product.md 2 and every figure of product.md 6 that stands on the screen. */
static void
needed (void)
{
  static const char *const words[] = {
    "job",          "population",
    "as found",     "planned",
    "as left",      "tray",
    "stock",        "board",
    "basis",        "finding",
    "stops",        "loses",
    "unsure",       "note",
    "even share",   "change-over",
    "prove",        "trace",
    "bench sheet",  "lid sheet",
    "lid off",      "by channel",
    "fitted",       "can be used",
    "runs at",      "peak",
    "region",       "node",
    "GB/s",         "channels in use",
    "mirrored",     "plain",
    "spared",       "partly mirrored",
    "paired",       "listed",
    "bench-proven", "assumed",
    "balance page", "room to grow",
    "channel",      "slot",
    "rank",         "chip width",
    "registered",   "unbuffered",
    "load-reduced", "3DS",
    "ECC",          "SPD",
    "ways",         "interleave",
    "processor",    "socket",
    "module",       "bin",
    "stage",        "pick list",
    "mat",          "hands",
    "reserved",
  };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (lid_glossary_find (words[i]) == NULL)
      g_test_fail_printf ("the glossary lacks %s", words[i]);
  g_assert_cmpstr (lid_glossary_find ("EVEN SHARE")->id, ==, "even-share");
  g_assert_cmpstr (lid_glossary_find ("even-share")->id, ==, "even-share");
  g_assert_null (lid_glossary_find (""));
  g_assert_null (lid_glossary_find ("even"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/glossary/all", all);
  g_test_add_func ("/glossary/needed", needed);
  return g_test_run ();
}
