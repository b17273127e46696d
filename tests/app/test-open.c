/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What comes into a window, and the board that goes with it. */
#include "app/recent-jobs.h"
#include "desk.h"
#include "jobs.h"

#include <glib/gstdio.h>
#include <string.h>

static const char *
board_of (LidWindow *window)
{
  return lid_job_model_get_job (lid_window_get_model (window))->board->id;
}

/* A paste counts as unsaved work, and offers a board as a file does, with what was done kept. */
static void
pasted (void)
{
  g_autofree char *text
      = jobs_text_of ("tests/data/machines/tern-w4.txt", "Name: Tern W4", "Name: Dabchick W9");
  LidWindow *window = jobs_new_window ();

  g_assert_false (lid_window_paste_text (window, "nothing"));
  g_assert_true (jobs_says (window, "Pasted report"));
  g_assert_null (lid_window_get_model (window));
  g_assert_true (lid_window_paste_text (window, text));
  g_assert_true (lid_job_model_get_unsaved (lid_window_get_model (window)));
  g_assert_true (jobs_says (window, "It may be a Tern W4, but: "));
  g_assert_true (jobs_says (window, "Dabchick W9"));
  jobs_edit (window, "Rain gauge");
  jobs_act (window, "use-offered");
  g_assert_cmpstr (board_of (window), ==, "tern-w4");
  g_assert_cmpstr (lid_job_model_get_job (lid_window_get_model (window))->title, ==, "Rain gauge");
  jobs_act (window, "undo");
  g_assert_cmpstr (board_of (window), !=, "tern-w4");
  jobs_act (window, "redo");
  g_assert_cmpstr (board_of (window), ==, "tern-w4");
  gtk_window_close (GTK_WINDOW (window));
  jobs_answer (window, 1);
}

static void
newer_board (void)
{
  g_autoptr (GFile) file = jobs_file ("board.lidleaf", "\"mts\": 2133", "\"mts\": 1866");
  LidWindow *window = jobs_open_job (file);
  const LidJob *job = lid_job_model_get_job (lid_window_get_model (window));
  g_autofree char *was = g_strdup (job->board->hash);

  g_assert_true (jobs_says (window, "has changed since this job was made: processors."));
  g_assert_false (lid_job_model_get_unsaved (lid_window_get_model (window)));
  jobs_act (window, "use-offered");
  job = lid_job_model_get_job (lid_window_get_model (window));
  g_assert_cmpstr (job->board->hash, !=, was);
  g_assert_true (lid_job_model_get_unsaved (lid_window_get_model (window)));
  jobs_act (window, "undo");
  job = lid_job_model_get_job (lid_window_get_model (window));
  g_assert_cmpstr (job->board->hash, ==, was);
  g_assert_false (lid_job_model_get_unsaved (lid_window_get_model (window)));
  gtk_window_close (GTK_WINDOW (window));
}

static void
opened_over (void)
{
  g_autoptr (GFile) first = jobs_file ("first.lidleaf", NULL, NULL),
                    second = jobs_file ("second.lidleaf", NULL, NULL);
  g_autoptr (GSList) both = g_slist_append (g_slist_append (NULL, first), second);
  LidWindow *window = jobs_new_window ();

  g_assert_true (lid_window_open_files (window, both));
  g_assert_cmpuint (jobs_n_windows (), ==, 2);
  jobs_edit (window, "Changed");
  g_assert_true (lid_window_open (window, second)); /* shown where it is shown */
  g_assert_true (lid_window_open (window, first));
  g_assert_cmpuint (jobs_n_windows (), ==, 2);
  g_assert_cmpstr (lid_job_model_get_job (lid_window_get_model (window))->title, ==, "Changed");

  /* All windows close, each that has to asks, and Cancel is heard. */
  g_action_group_activate_action (G_ACTION_GROUP (jobs_application), "quit", NULL);
  desk_settle ();
  jobs_answer (NULL, 0);
  g_assert_cmpuint (jobs_n_windows (), >=, 1);
  g_action_group_activate_action (G_ACTION_GROUP (jobs_application), "quit", NULL);
  desk_settle ();
  jobs_answer (NULL, 1);
  g_assert_cmpuint (jobs_n_windows (), ==, 0);
}

static void
recent (void)
{
  g_autoptr (GFile) file
      = jobs_file ("recent.lidleaf", "Estuary tide gauge, node 2", "Harbour mast");
  g_autofree char *uri = g_file_get_uri (file);
  g_autoptr (GPtrArray) jobs = NULL, fewer = NULL;
  g_autoptr (GMenuModel) menu = NULL;
  const LidRecentJob *job;
  LidWindow *window = jobs_open_job (file);

  jobs = lid_recent_jobs_list (1);
  job = jobs->pdata[0];
  g_assert_cmpstr (job->uri, ==, uri);
  g_assert_cmpstr (job->title, ==, "Harbour mast");
  g_assert_cmpstr (job->folder, ==, jobs_folder);
  menu = lid_recent_jobs_menu ();
  g_assert_cmpint (g_menu_model_get_n_items (menu), >=, 1);
  gtk_window_close (GTK_WINDOW (window));

  window = jobs_new_window ();
  g_action_group_activate_action (G_ACTION_GROUP (window), "open-recent",
                                  g_variant_new_string (uri));
  g_assert_nonnull (lid_window_get_model (window));
  gtk_window_close (GTK_WINDOW (window));

  g_unlink (g_file_peek_path (file));
  window = jobs_new_window ();
  g_action_group_activate_action (G_ACTION_GROUP (window), "open-recent",
                                  g_variant_new_string (uri));
  g_assert_null (lid_window_get_model (window));
  g_assert_true (jobs_says (window, "recent.lidleaf is not there any more"));
  fewer = lid_recent_jobs_list (100);
  for (guint i = 0; i < fewer->len; i++)
    g_assert_cmpstr (((const LidRecentJob *)fewer->pdata[i])->uri, !=, uri);
  gtk_window_close (GTK_WINDOW (window));
}

static void
example (void)
{
  LidWindow *window = jobs_new_window ();

  jobs_act (window, "open-example");
  g_assert_cmpstr (lid_job_model_get_job (lid_window_get_model (window))->title, ==,
                   "Estuary tide gauge, node 2");
  g_assert_false (lid_job_model_get_unsaved (lid_window_get_model (window)));
  gtk_window_close (GTK_WINDOW (window));
  g_assert_cmpuint (jobs_n_windows (), ==, 0);
}

static void
add (void)
{
  g_test_add_func ("/open/pasted", pasted);
  g_test_add_func ("/open/newer-board", newer_board);
  g_test_add_func ("/open/opened-over", opened_over);
  g_test_add_func ("/open/recent", recent);
  g_test_add_func ("/open/example", example);
}

int
main (int argc, char **argv)
{
  return jobs_run (&argc, &argv, add);
}
