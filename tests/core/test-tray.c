/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "edits-sample.h"

#include "board/board-file.h"

static const LidTrayGroup *
group_at (const GPtrArray *tray, guint i)
{
  g_assert_cmpuint (i, <, tray->len);
  return tray->pdata[i];
}

static void
test_groups (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  g_autoptr (GPtrArray) tray = NULL;
  g_autoptr (GError) error = NULL;

  /* As planned begins as as found: nothing lies on the tray. */
  tray = lid_edits_tray (edits, LID_PLANNED);
  g_assert_cmpuint (tray->len, ==, 0);
  g_clear_pointer (&tray, g_ptr_array_unref);

  lid_edits_add_from_text (edits, "4x 32GB 2Rx4 PC4-3200AA-RB2-12", NULL, NULL, &error);
  lid_edits_add_from_text (edits, "2x 32g 2rx4 3200 registered", NULL, NULL, &error);
  lid_edits_add_from_text (edits, "(L)16GB 2Rx8 PC4-3200AA-RE2-12(S)Z900(P)TP-16R-32", NULL, NULL,
                           &error);
  lid_edits_empty_all (edits, LID_PLANNED, &error);
  g_assert_no_error (error);
  tray = lid_edits_tray (edits, LID_PLANNED);
  g_assert_cmpuint (tray->len, ==, 4);
  g_assert_cmpint (group_at (tray, 0)->origin, ==, LID_TRAY_PULLED);
  g_assert_cmpuint (group_at (tray, 0)->count, ==, 2);
  /* The same part, but scanned: at hand, and from elsewhere than this machine. */
  g_assert_cmpint (group_at (tray, 1)->origin, ==, LID_TRAY_STOCK);
  g_assert_cmpstr (group_at (tray, 1)->module->serial, ==, "Z900");
  g_assert_cmpint (group_at (tray, 2)->origin, ==, LID_TRAY_TO_BUY);
  g_assert_cmpuint (group_at (tray, 2)->count, ==, 4);
  /* Not all facts are known of these, and still they were typed as two of a kind. */
  g_assert_cmpuint (group_at (tray, 3)->count, ==, 2);
  g_clear_pointer (&tray, g_ptr_array_unref);
  /* As found they sit in their slots. */
  tray = lid_edits_tray (edits, LID_AS_FOUND);
  g_assert_cmpuint (tray->len, ==, 3);
  g_assert_cmpint (group_at (tray, 0)->origin, ==, LID_TRAY_STOCK);
}

/* One that fills a slot is one less; the next is another one. */
static void
test_shrinks (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  g_autoptr (GPtrArray) tray = NULL;
  g_autofree char *first = NULL;

  lid_edits_add_from_text (edits, "2x 32GB 2Rx4 PC4-3200AA-RB2-12", NULL, &first, NULL);
  g_assert_true (lid_edits_fill (edits, LID_PLANNED, 4, first, NULL));
  tray = lid_edits_tray (edits, LID_PLANNED);
  g_assert_cmpuint (tray->len, ==, 1);
  g_assert_cmpuint (group_at (tray, 0)->count, ==, 1);
  g_assert_cmpstr (group_at (tray, 0)->module->id, !=, first);
}

/* What is soldered is no module at hand. */
static void
test_soldered (void)
{
  g_autoptr (LidBoard) board = edits_sample_board ("dunlin-s1");
  LidJob *job = lid_job_new (board);
  LidStage *stage = g_new0 (LidStage, 1);
  LidModule *module = lid_module_copy (board->slots[0].soldered);
  g_autoptr (LidEdits) edits = NULL;
  g_autoptr (GPtrArray) tray = NULL;

  g_assert_nonnull (board->slots[0].soldered);
  job->as_found = lid_population_new (board);
  lid_population_put (job->as_found, 0, lid_job_add_module (job, module));
  job->as_found->slots[0].state = LID_SLOT_SOLDERED;
  /* A plan that shows the board's own memory there, not what was read of it. */
  stage->population = lid_population_new (board);
  g_ptr_array_add (job->stages, stage);
  edits = lid_edits_new (job);
  tray = lid_edits_tray (edits, LID_PLANNED);
  g_assert_cmpuint (tray->len, ==, 0);
  g_clear_pointer (&tray, g_ptr_array_unref);
  g_assert_false (lid_edits_take (edits, LID_PLANNED, 0, NULL));
  g_assert_false (lid_edits_fill (edits, LID_PLANNED, 1, module->id, NULL));
  g_assert_true (lid_edits_empty_all (edits, LID_PLANNED, NULL));
  tray = lid_edits_tray (edits, LID_PLANNED);
  g_assert_cmpuint (tray->len, ==, 0);
}

static void
test_words (void)
{
  g_assert_cmpstr (lid_tray_origin_to_words (LID_TRAY_PULLED), ==, "pulled");
  g_assert_cmpstr (lid_tray_origin_to_words (LID_TRAY_STOCK), ==, "stock");
  g_assert_cmpstr (lid_tray_origin_to_words (LID_TRAY_TO_BUY), ==, "to buy");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tray/groups", test_groups);
  g_test_add_func ("/tray/shrinks", test_shrinks);
  g_test_add_func ("/tray/soldered", test_soldered);
  g_test_add_func ("/tray/words", test_words);
  return g_test_run ();
}
