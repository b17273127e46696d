/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the window keeps, and what it asks before something is lost. */
#include "app/settings.h"
#include "desk.h"
#include "jobs.h"

#include "job/job-file.h"

#include <glib/gstdio.h>
#include <string.h>

static void
close_question (void)
{
  g_autoptr (GFile) file = jobs_file ("close.lidleaf", NULL, NULL);
  g_autofree char *before = jobs_contents (g_file_peek_path (file)), *after = NULL;
  g_autoptr (GPtrArray) list = NULL;
  LidWindow *window = jobs_open_job (file);

  jobs_edit (window, "Pier 3");
  lid_window_keep_now (window);
  gtk_window_close (GTK_WINDOW (window));
  gtk_window_close (GTK_WINDOW (window)); /* asked once */
  jobs_answer (window, GTK_RESPONSE_DELETE_EVENT);
  g_assert_null (jobs_question_of (window));
  g_assert_cmpuint (jobs_n_windows (), ==, 1);
  gtk_window_close (GTK_WINDOW (window));
  jobs_answer (window, 1); /* without saving */
  g_assert_cmpuint (jobs_n_windows (), ==, 0);
  after = jobs_contents (g_file_peek_path (file));
  g_assert_cmpstr (after, ==, before);
  list = jobs_left ();
  g_assert_cmpuint (list->len, ==, 0);
}

static void
close_saves (void)
{
  g_autoptr (GFile) file = jobs_file ("close-saves.lidleaf", NULL, NULL);
  g_autoptr (GPtrArray) list = NULL;
  g_autofree char *after = NULL;
  LidWindow *window = jobs_open_job (file);

  jobs_edit (window, "Pier 4");
  lid_window_keep_now (window);
  gtk_window_close (GTK_WINDOW (window));
  jobs_answer (window, 2);
  g_assert_cmpuint (jobs_n_windows (), ==, 0);
  after = jobs_contents (g_file_peek_path (file));
  g_assert_nonnull (strstr (after, "Pier 4"));
  list = jobs_left ();
  g_assert_cmpuint (list->len, ==, 0);
}

/* The jobs_folder of the job is gone: nothing can be saved there, nothing is lost. */
static void
save_fails (void)
{
  g_autofree char *gone = g_build_filename (jobs_folder, "gone", NULL);
  g_autoptr (GFile) file = g_file_new_build_filename (gone, "job.lidleaf", NULL);
  g_autofree char *text = jobs_text_of ("resources/example.lidleaf", NULL, NULL);
  LidWindow *window;

  g_assert_cmpint (g_mkdir (gone, 0700), ==, 0);
  g_assert_true (g_file_set_contents (g_file_peek_path (file), text, -1, NULL));
  window = jobs_open_job (file);
  g_unlink (g_file_peek_path (file));
  g_rmdir (gone);
  jobs_edit (window, "Pier 5");
  gtk_window_close (GTK_WINDOW (window));
  jobs_answer (window, 2);
  g_assert_cmpuint (jobs_n_windows (), ==, 1);
  g_assert_true (jobs_says (window, "Not saved: "));
  g_assert_true (jobs_says (window, "gone/job.lidleaf"));
  g_assert_true (lid_job_model_get_unsaved (lid_window_get_model (window)));
  gtk_window_close (GTK_WINDOW (window));
  jobs_answer (window, 1);
}

static void
changed_on_disk (void)
{
  g_autoptr (GFile) file = jobs_file ("shared.lidleaf", NULL, NULL);
  const char *path = g_file_peek_path (file);
  g_autofree char *theirs = NULL, *ours = NULL;
  LidWindow *window = jobs_open_job (file);

  jobs_edit (window, "Ours");
  g_assert_true (g_file_set_contents (path, "theirs", -1, NULL));
  jobs_act (window, "save");
  jobs_answer (window, 0);
  theirs = jobs_contents (path);
  g_assert_cmpstr (theirs, ==, "theirs");
  g_assert_true (lid_job_model_get_unsaved (lid_window_get_model (window)));
  jobs_act (window, "save");
  jobs_answer (window, 1);
  ours = jobs_contents (path);
  g_assert_nonnull (strstr (ours, "\"Ours\""));
  jobs_edit (window, "Ours too");
  jobs_act (window, "save"); /* our own writing is not asked about */
  g_assert_null (jobs_question_of (window));
  g_assert_false (lid_job_model_get_unsaved (lid_window_get_model (window)));
  gtk_window_close (GTK_WINDOW (window));
}

/* A job of a newer version is copied as it is: members and blanks nobody here understands. */
static void
newer_version (void)
{
  g_autoptr (GFile) file
      = jobs_file ("newer.lidleaf", "\"lidleaf\": 1,", "\"lidleaf\":   99, \"tide\": [1e999],");
  g_autoptr (GFile) copy = g_file_new_build_filename (jobs_folder, "copy.lidleaf", NULL);
  g_autofree char *before = NULL, *after = NULL;
  LidWindow *window = jobs_new_window ();

  if (!lid_window_open (window, file))
    {
      g_object_unref (file);
      file = jobs_file ("newer.lidleaf", "\"lidleaf\": 1,", "\"lidleaf\":   99, \"tide\": [7],");
      g_assert_true (lid_window_open (window, file));
    }
  g_assert_true (jobs_says (window, "newer version"));
  g_assert_false (jobs_enabled (window, "save"));
  g_assert_true (jobs_enabled (window, "save-as"));
  g_assert_true (lid_window_save_to (window, copy));
  before = jobs_contents (g_file_peek_path (file));
  after = jobs_contents (g_file_peek_path (copy));
  g_assert_cmpstr (after, ==, before);
  gtk_window_close (GTK_WINDOW (window));
  g_assert_cmpuint (jobs_n_windows (), ==, 0);
}

static gboolean
wait_is_over (gpointer data)
{
  *(gboolean *)data = TRUE;
  return G_SOURCE_REMOVE;
}

static void
wait_ms (guint ms)
{
  gboolean over = FALSE;

  g_timeout_add (ms, wait_is_over, &over);
  while (!over)
    g_main_context_iteration (NULL, TRUE);
}

/* A window that goes without a word leaves its work; it is offered, and is what was. */
static void
left_behind (void)
{
  g_autoptr (GFile) file = jobs_file ("left.lidleaf", NULL, NULL);
  g_autofree char *was = NULL, *is = NULL;
  g_autoptr (GPtrArray) held = NULL, list = NULL, none = NULL;
  const LidRecovered *found;
  LidWindow *window = jobs_open_job (file);

  jobs_edit (window, "Left behind");
  wait_ms (900); /* written by itself */
  held = jobs_left ();
  g_assert_cmpuint (held->len, ==, 0); /* somebody works on it */
  was = lid_job_file_to_text (lid_job_model_get_job (lid_window_get_model (window)));
  gtk_window_destroy (GTK_WINDOW (window));
  desk_settle ();
  list = jobs_left ();
  g_assert_cmpuint (list->len, ==, 1);
  found = list->pdata[0];
  g_assert_cmpstr (found->title, ==, "Left behind");
  g_assert_cmpstr (found->path, ==, g_file_peek_path (file));

  window = jobs_new_window ();
  g_assert_false (jobs_enabled (window, "take-up"));
  lid_window_offer_left (window);
  jobs_act (window, "take-up");
  g_assert_false (jobs_enabled (window, "take-up"));
  is = lid_job_file_to_text (lid_job_model_get_job (lid_window_get_model (window)));
  g_assert_cmpstr (is, ==, was);
  g_assert_true (lid_job_model_get_unsaved (lid_window_get_model (window)));
  jobs_act (window, "save");
  g_assert_null (jobs_question_of (window));
  gtk_window_close (GTK_WINDOW (window));
  desk_settle ();
  none = jobs_left ();
  g_assert_cmpuint (none->len, ==, 0);
}

static void
left_and_discarded (void)
{
  g_autofree char *place = lid_recovery_default_folder ();
  g_autofree char *broken = g_build_filename (place, "x.recovery", NULL);
  g_autoptr (GPtrArray) none = NULL;
  LidWindow *window;

  g_assert_true (g_file_set_contents (broken, "no work of ours", -1, NULL));
  window = jobs_new_window ();
  lid_window_offer_left (window);
  jobs_act (window, "take-up");
  g_assert_null (lid_window_get_model (window));
  g_assert_true (jobs_says (window, "x.recovery"));
  g_assert_true (g_file_test (broken, G_FILE_TEST_EXISTS));
  lid_window_offer_left (window);
  jobs_act (window, "discard");
  jobs_answer (window, 0);
  g_assert_true (g_file_test (broken, G_FILE_TEST_EXISTS));
  jobs_act (window, "discard");
  jobs_answer (window, 1);
  g_assert_false (jobs_enabled (window, "discard"));
  none = jobs_left ();
  g_assert_cmpuint (none->len, ==, 0);
  gtk_window_close (GTK_WINDOW (window));
}

static void
settings (void)
{
  g_autoptr (GFile) file = jobs_file ("settings.lidleaf", NULL, NULL);
  g_autoptr (GFile) here = g_file_new_for_path (jobs_folder);
  g_autofree char *uri = g_file_get_uri (here), *kept = NULL;
  g_autoptr (GSettings) all = lid_settings_new ();
  LidWindow *window;
  int width, height;

  g_assert_nonnull (all);
  g_settings_set_int (all, "window-width", 1111);
  g_settings_set_int (all, "window-height", 777);
  window = jobs_open_job (file);
  gtk_window_get_default_size (GTK_WINDOW (window), &width, &height);
  g_assert_cmpint (width, ==, 1111);
  g_assert_cmpint (height, ==, 777);
  kept = g_settings_get_string (all, "last-folder");
  g_assert_cmpstr (kept, ==, uri);
  gtk_window_close (GTK_WINDOW (window));
  desk_settle ();
  g_assert_cmpint (g_settings_get_int (all, "window-width"), ==, 1111);
}

static void
add (void)
{
  g_test_add_func ("/keep/close-question", close_question);
  g_test_add_func ("/keep/close-saves", close_saves);
  g_test_add_func ("/keep/save-fails", save_fails);
  g_test_add_func ("/keep/changed-on-disk", changed_on_disk);
  g_test_add_func ("/keep/newer-version", newer_version);
  g_test_add_func ("/keep/left-behind", left_behind);
  g_test_add_func ("/keep/left-and-discarded", left_and_discarded);
  g_test_add_func ("/keep/settings", settings);
}

int
main (int argc, char **argv)
{
  return jobs_run (&argc, &argv, add);
}
