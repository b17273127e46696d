/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "edits-sample.h"

#include "base/error.h"
#include "job/job-file.h"
#include "job/job-teach.h"

#include <string.h>

static void
test_hands (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  g_autoptr (GError) error = NULL;
  const LidPopulation *planned;
  const char *m1 = edits_sample_id (edits, LID_AS_FOUND, 0);

  g_assert_null (lid_edits_population (edits, LID_PLANNED));
  g_assert_false (lid_edits_can_undo (edits));
  g_assert_null (lid_edits_undo_name (edits));
  g_assert_true (lid_edits_move (edits, LID_PLANNED, 0, 1, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "move A1 to A2");
  planned = lid_edits_population (edits, LID_PLANNED);
  g_assert_null (planned->slots[0].module);
  g_assert_cmpstr (planned->slots[1].module->id, ==, m1);
  /* As found is not touched by a plan. */
  g_assert_cmpstr (edits_sample_id (edits, LID_AS_FOUND, 0), ==, m1);

  g_assert_true (lid_edits_fill (edits, LID_PLANNED, 0, m1, &error));
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "fill A1");
  planned = lid_edits_population (edits, LID_PLANNED);
  g_assert_null (planned->slots[1].module);
  g_assert_true (lid_edits_take (edits, LID_PLANNED, 0, &error));
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "empty A1");
  g_assert_true (lid_edits_undo (edits));
  g_assert_cmpstr (lid_edits_redo_name (edits), ==, "empty A1");
  g_assert_true (lid_edits_undo (edits));
  g_assert_true (lid_edits_undo (edits));
  g_assert_false (lid_edits_undo (edits));
  g_assert_null (lid_edits_population (edits, LID_PLANNED));
  g_assert_cmpuint (lid_edits_job (edits)->stages->len, ==, 0);
}

static void
test_exchange (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  g_autoptr (GError) error = NULL;
  g_autofree char *first = g_strdup (edits_sample_id (edits, LID_AS_FOUND, 0));
  g_autofree char *second = g_strdup (edits_sample_id (edits, LID_AS_FOUND, 2));

  g_assert_nonnull (second);
  g_assert_true (lid_edits_move (edits, LID_PLANNED, 0, 2, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "exchange A1 and B1");
  g_assert_cmpstr (edits_sample_id (edits, LID_PLANNED, 0), ==, second);
  g_assert_cmpstr (edits_sample_id (edits, LID_PLANNED, 2), ==, first);
}

/* What cannot be done says so, leaves no step and changes nothing. */
static void
test_refusals (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  g_autofree char *before = lid_job_file_to_text (lid_edits_job (edits)), *after = NULL;
  const char *m1 = edits_sample_id (edits, LID_AS_FOUND, 0);
  GError *error = NULL;

  g_assert_false (lid_edits_fill (edits, LID_PLANNED, 0, "no-such", &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_NOT_FOUND);
  g_clear_error (&error);
  g_assert_false (lid_edits_fill (edits, LID_PLANNED, 99, m1, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_NOT_FOUND);
  g_clear_error (&error);
  g_assert_false (lid_edits_move (edits, LID_PLANNED, 1, 0, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  g_assert_nonnull (strstr (error->message, "A2"));
  g_clear_error (&error);
  g_assert_false (lid_edits_left_from_planned (edits, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  g_clear_error (&error);
  /* Nothing to change is no step. */
  g_assert_true (lid_edits_fill (edits, LID_AS_FOUND, 0, m1, &error));
  g_assert_true (lid_edits_take (edits, LID_PLANNED, 1, &error));
  g_assert_true (lid_edits_set_text (edits, LID_EDITS_OWNER, "", &error));
  g_assert_no_error (error);
  g_assert_false (lid_edits_can_undo (edits));
  after = lid_job_file_to_text (lid_edits_job (edits));
  g_assert_cmpstr (before, ==, after);
}

static void
test_read_only (void)
{
  LidJob *job = edits_sample_job ();
  g_autoptr (LidEdits) edits = NULL;
  g_autoptr (GError) error = NULL;

  job->read_only = TRUE;
  edits = lid_edits_new (job);
  g_assert_false (lid_edits_take (edits, LID_AS_FOUND, 0, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_NEWER);
  g_assert_nonnull (lid_edits_population (edits, LID_AS_FOUND)->slots[0].module);
}

static void
test_saved (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();

  g_assert_false (lid_edits_changed (edits));
  lid_edits_take (edits, LID_PLANNED, 0, NULL);
  g_assert_true (lid_edits_changed (edits));
  lid_edits_mark_saved (edits);
  g_assert_false (lid_edits_changed (edits));
  lid_edits_undo (edits);
  g_assert_true (lid_edits_changed (edits));
  lid_edits_redo (edits);
  g_assert_false (lid_edits_changed (edits));
  lid_edits_undo (edits);
  /* The state on disk is out of reach now: undoing and redoing never lands on it. */
  lid_edits_take (edits, LID_PLANNED, 2, NULL);
  g_assert_true (lid_edits_changed (edits));
  lid_edits_undo (edits);
  g_assert_true (lid_edits_changed (edits));
  lid_edits_mark_saved (edits);
  g_assert_false (lid_edits_changed (edits));
  lid_edits_mark_unsaved (edits);
  g_assert_true (lid_edits_changed (edits));
}

/* A change of what was left is not proved. */
static void
test_proof_falls (void)
{
  LidJob *job = edits_sample_job ();
  g_autoptr (LidEdits) edits = NULL;
  g_autoptr (GError) error = NULL;

  job->as_left = lid_population_copy (job->as_found);
  job->proved = TRUE;
  edits = lid_edits_new (job);
  g_assert_true (lid_edits_take (edits, LID_AS_LEFT, 0, &error));
  g_assert_false (lid_edits_job (edits)->proved);
  lid_edits_undo (edits);
  g_assert_true (lid_edits_job (edits)->proved);
  /* Other populations do not touch the proof. */
  g_assert_true (lid_edits_take (edits, LID_PLANNED, 0, &error));
  g_assert_true (lid_edits_job (edits)->proved);
}

/* Keys typed one after another are one step; another edit between them ends it, saving too. */
static void
test_texts (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  g_autofree char *long_text = g_strnfill (LID_JOB_MAX_TEXT + 1, 'x');
  GError *error = NULL;

  g_assert_true (lid_edits_set_text (edits, LID_EDITS_OWNER, "T", &error));
  g_assert_true (lid_edits_set_text (edits, LID_EDITS_OWNER, "Tide service", &error));
  g_assert_true (lid_edits_set_text (edits, LID_EDITS_NOTES, "hot", &error));
  g_assert_true (lid_edits_set_text (edits, LID_EDITS_OWNER, "Library", &error));
  lid_edits_mark_saved (edits);
  g_assert_true (lid_edits_set_text (edits, LID_EDITS_OWNER, "Town library", &error));
  g_assert_no_error (error);
  g_assert_false (lid_edits_set_text (edits, LID_EDITS_OWNER, "\xff", &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  g_clear_error (&error);
  g_assert_false (lid_edits_set_text (edits, LID_EDITS_NOTES, long_text, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_TOO_LARGE);
  g_clear_error (&error);
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "owner");
  lid_edits_undo (edits);
  g_assert_cmpstr (lid_edits_get_text (edits, LID_EDITS_OWNER), ==, "Library");
  lid_edits_undo (edits);
  g_assert_cmpstr (lid_edits_get_text (edits, LID_EDITS_OWNER), ==, "Tide service");
  lid_edits_undo (edits);
  g_assert_null (lid_edits_get_text (edits, LID_EDITS_NOTES));
  lid_edits_undo (edits);
  g_assert_null (lid_edits_get_text (edits, LID_EDITS_OWNER));
  g_assert_false (lid_edits_can_undo (edits));
}

/* Another board is a step like any other. */
static void
test_taught (void)
{
  g_autoptr (LidEdits) edits = lid_edits_new (edits_sample_untold ());
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) offers = NULL;
  g_autofree char *before = NULL, *taught = NULL, *again = NULL, *redone = NULL;
  const LidJob *job;
  LidJob *other;

  job = lid_edits_job (edits);
  offers = lid_job_teach_offers (job);
  g_assert_cmpuint (offers->len, >, 0);
  other = lid_job_teach (job, offers->pdata[0], &error);
  g_assert_no_error (error);
  before = lid_job_file_to_text (job);
  taught = lid_job_file_to_text (other);
  g_assert_cmpstr (before, !=, taught);
  g_assert_true (lid_edits_become (edits, other, "teach the channels", &error));
  g_assert_true (lid_edits_job (edits) == job);
  again = lid_job_file_to_text (job);
  g_assert_cmpstr (again, ==, taught);
  g_clear_pointer (&again, g_free);
  lid_edits_undo (edits);
  again = lid_job_file_to_text (job);
  g_assert_cmpstr (again, ==, before);
  lid_edits_redo (edits);
  redone = lid_job_file_to_text (job);
  g_assert_cmpstr (redone, ==, taught);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/edits/hands", test_hands);
  g_test_add_func ("/edits/exchange", test_exchange);
  g_test_add_func ("/edits/refusals", test_refusals);
  g_test_add_func ("/edits/read-only", test_read_only);
  g_test_add_func ("/edits/saved", test_saved);
  g_test_add_func ("/edits/proof-falls", test_proof_falls);
  g_test_add_func ("/edits/texts", test_texts);
  g_test_add_func ("/edits/taught", test_taught);
  return g_test_run ();
}
