/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "jobs.h"

#include "app/application.h"
#include "desk.h"

#include <glib/gstdio.h>
#include <string.h>

GtkApplication *jobs_application;
char *jobs_folder;

char *
jobs_source_path (const char *name)
{
  return g_build_filename (g_getenv ("LID_SOURCE"), name, NULL);
}

char *
jobs_contents (const char *path)
{
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

char *
jobs_text_of (const char *name, const char *from, const char *to)
{
  g_autofree char *path = jobs_source_path (name), *text = jobs_contents (path);
  g_autoptr (GString) edited = g_string_new (text);

  if (from != NULL)
    g_assert_cmpuint (g_string_replace (edited, from, to, 1), ==, 1);
  return g_strdup (edited->str);
}

/* A job of ours in the test's jobs_folder. */
GFile *
jobs_file (const char *name, const char *from, const char *to)
{
  g_autofree char *text = jobs_text_of ("resources/example.lidleaf", from, to);
  GFile *file = g_file_new_build_filename (jobs_folder, name, NULL);

  g_assert_true (g_file_set_contents (g_file_peek_path (file), text, -1, NULL));
  return file;
}

LidWindow *
jobs_new_window (void)
{
  LidWindow *window = LID_WINDOW (lid_window_new (jobs_application));

  gtk_window_present (GTK_WINDOW (window));
  return window;
}

LidWindow *
jobs_open_job (GFile *file)
{
  LidWindow *window = jobs_new_window ();

  g_assert_true (lid_window_open (window, file));
  return window;
}

void
jobs_edit (LidWindow *window, const char *title)
{
  LidJobModel *model = lid_window_get_model (window);
  g_autoptr (GError) error = NULL;

  g_assert_true (
      lid_edits_set_text (lid_job_model_get_edits (model), LID_EDITS_TITLE, title, &error));
  lid_job_model_edited (model);
}

gboolean
jobs_enabled (LidWindow *window, const char *name)
{
  return g_action_group_get_action_enabled (G_ACTION_GROUP (window), name);
}

void
jobs_act (LidWindow *window, const char *name)
{
  g_assert_true (jobs_enabled (window, name));
  g_action_group_activate_action (G_ACTION_GROUP (window), name, NULL);
  desk_settle ();
}

guint
jobs_n_windows (void)
{
  guint n = 0;

  desk_settle ();
  for (GList *item = gtk_application_get_windows (jobs_application); item != NULL;
       item = item->next)
    n += LID_IS_WINDOW (item->data);
  return n;
}

GtkDialog *
jobs_question_of (LidWindow *window)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();

  for (GList *item = all; item != NULL; item = item->next)
    if (GTK_IS_MESSAGE_DIALOG (item->data)
        && (window == NULL || gtk_window_get_transient_for (item->data) == GTK_WINDOW (window)))
      return item->data;
  return NULL;
}

void
jobs_answer (LidWindow *window, int response)
{
  GtkDialog *dialog = jobs_question_of (window);

  g_assert_nonnull (dialog);
  gtk_dialog_response (dialog, response);
  desk_settle ();
}

gboolean
jobs_says (LidWindow *window, const char *words)
{
  g_test_message ("%s", lid_window_get_sentence (window));
  return strstr (lid_window_get_sentence (window), words) != NULL;
}

GPtrArray *
jobs_left (void)
{
  g_autofree char *place = lid_recovery_default_folder ();

  return lid_recovery_list (place);
}

static void
remove_folder (void)
{
  g_autoptr (GDir) dir = g_dir_open (jobs_folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (jobs_folder, name, NULL);

      g_remove (path);
    }
  g_rmdir (jobs_folder);
  g_free (jobs_folder);
}

/* Tests with a program of their own and a folder of their own. */
int
jobs_run (int *argc, char ***argv, void (*add) (void))
{
  g_autoptr (GError) error = NULL;
  int status;

  gtk_test_init (argc, argv, NULL);
  jobs_application = lid_application_new ();
  g_application_set_flags (G_APPLICATION (jobs_application), G_APPLICATION_NON_UNIQUE);
  g_assert_true (g_application_register (G_APPLICATION (jobs_application), NULL, &error));
  jobs_folder = g_dir_make_tmp ("lidleaf-jobs-XXXXXX", NULL);
  add ();
  status = g_test_run ();
  remove_folder ();
  return status;
}
