/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "help/cautions.h"
#include "help/explain.h"
#include "support.h"

#include <string.h>

/* Every caution has its why and its source, none twice; they stand in the order of the work; a line
 * of the sheet is short, and what a gate says ends where a tick can answer it. */
static void
all (void)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) texts = g_hash_table_new (g_str_hash, g_str_equal);
  gboolean filled[LID_N_MOMENTS] = { FALSE };
  const LidCaution *cautions;
  guint n;

  cautions = lid_cautions_all (&n);
  for (guint i = 0; i < n; i++)
    {
      const LidCaution *one = &cautions[i];
      g_autoptr (LidExplanation) explanation = lid_explain_caution (one);
      g_autofree char *text = lid_explain_to_text (explanation);

      g_assert_true (g_hash_table_add (ids, (gpointer)one->id));
      g_assert_true (g_hash_table_add (texts, (gpointer)one->text));
      g_assert_true (lid_cautions_find (one->id) == one);
      g_assert_true (i == 0 || one->moment >= one[-1].moment);
      g_assert_true (strchr (".?", one->text[strlen (one->text) - 1]) != NULL);
      g_assert_cmpuint (strlen (one->text), <=, 140);
      g_assert_cmpuint (strlen (one->why), >=, 40);
      g_assert_true (g_str_has_suffix (one->why, "."));
      g_assert_nonnull (strstr (text, one->why));
      g_assert_nonnull (strstr (text, one->source));
      filled[one->moment] = TRUE;
    }
  for (guint i = 0; i < LID_N_MOMENTS; i++)
    {
      g_assert_true (filled[i]);
      g_assert_nonnull (lid_cautions_moment ((LidMoment)i));
    }
  g_assert_null (lid_cautions_find ("no-such-caution"));
}

static guint
place (const char *id)
{
  const LidCaution *cautions;
  guint n;

  cautions = lid_cautions_all (&n);
  for (guint i = 0; i < n; i++)
    if (strcmp (cautions[i].id, id) == 0)
      return i;
  g_error ("there is no caution %s", id);
}

/* What product.md 12 demands on the page where the hands are, in the order in which it saves
 * somebody: power is off before the machine is drained, the strap is on before a bag is opened, the
 * photograph is taken before a slot is touched, the strap is off before the cords go in. */
static void
order (void)
{
  static const char *const one_before_another[]
      = { "backup",       "recovery-key", "data-owner", "record",      "firmware-power",
          "every-cord",   "drain",        "strap",      "photograph",  "data-release",
          "open-latches", "notch",        "two-clicks", "level",       "nothing-inside",
          "baffle-on",    "strap-off",    "training",   "still-black", "count-slots",
          "memory-test",  "bag-and-tag" };

  for (guint i = 1; i < G_N_ELEMENTS (one_before_another); i++)
    g_assert_cmpuint (place (one_before_another[i - 1]), <, place (one_before_another[i]));
  g_assert_cmpuint (place ("hot-modules"), <, place ("open-latches"));
  g_assert_cmpuint (place ("two-lift"), <, place ("open-latches"));
}

/* Of a board that has no baffle and no blanks neither is said; of one nobody described, both, but
 * of blanks only where a slot stays empty. */
static void
cases (void)
{
  g_autoptr (LidBoard) board = lid_board_new ();
  const LidCaution *off = lid_cautions_find ("baffle-off"), *lid = lid_cautions_find ("lid-on"),
                   *stays = lid_cautions_find ("data-stays");
  const LidCaution *blanks = lid_cautions_find ("blanks-back");
  g_autoptr (LidModule) module = lid_module_new ();
  g_autoptr (LidPopulation) empty = NULL, full = NULL;

  board->n_slots = 1;
  board->slots = g_new0 (LidBoardSlot, 1);
  board->slots[0].id = g_strdup ("A1");
  empty = lid_population_new (board);
  full = lid_population_new (board);
  lid_population_put (full, 0, module);
  g_assert_false (lid_cautions_holds (off, lid_cautions_cases (board, empty)));
  g_assert_false (lid_cautions_holds (blanks, lid_cautions_cases (board, empty)));
  g_assert_true (lid_cautions_holds (lid, lid_cautions_cases (board, empty)));
  board->has_baffle = board->has_blanks = TRUE;
  g_assert_true (lid_cautions_holds (off, lid_cautions_cases (board, empty)));
  g_assert_true (lid_cautions_holds (blanks, lid_cautions_cases (board, empty)));
  g_assert_false (lid_cautions_holds (lid, lid_cautions_cases (board, empty)));
  board->has_baffle = board->has_blanks = FALSE;
  board->derived = TRUE;
  g_assert_true (lid_cautions_holds (off, lid_cautions_cases (board, empty)));
  g_assert_true (lid_cautions_holds (blanks, lid_cautions_cases (board, empty)));
  g_assert_false (lid_cautions_holds (blanks, lid_cautions_cases (board, full)));
  /* What holds data and stays: its neighbours change, so its owner is asked too. */
  g_assert_false (lid_cautions_holds (stays, lid_cautions_cases (board, full)));
  module->persistent = TRUE;
  g_assert_true (lid_cautions_holds (stays, lid_cautions_cases (board, full)));
  g_assert_false (lid_cautions_holds (stays, lid_cautions_cases (board, empty)));
}

/* Figures a caution gives against their source: the strap's limit is ANSI/ESD S20.20-2021's (scope
 * as published), the quarter of an hour the memory maker's FAQ KTM-012711-GEN-20 (DDR5 training
 * time, servers); handbook_checks.csv C114 and C112. */
static void
figures (void)
{
  g_assert_nonnull (strstr (lid_cautions_find ("strap")->why, "below 35 megohm"));
  g_assert_nonnull (strstr (lid_cautions_find ("strap")->source, "S20.20"));
  g_assert_nonnull (strstr (lid_cautions_find ("training")->text, "up to 15 minutes"));
  g_assert_nonnull (strstr (lid_cautions_find ("training")->source, "KTM-012711-GEN-20"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cautions/all", all);
  g_test_add_func ("/cautions/order", order);
  g_test_add_func ("/cautions/cases", cases);
  g_test_add_func ("/cautions/figures", figures);
  return g_test_run ();
}
