/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-chooser.c — the file chooser to open and to save, and questions before something is lost.
 */
#include "app/window-private.h"

#include <glib/gi18n.h>
#include <string.h>

/**
 * lid_window_keep_folder:
 * @file: a file that was opened or written
 *
 * The next chooser begins in its folder.
 */
void
lid_window_keep_folder (LidWindow *self, GFile *file)
{
  g_autoptr (GFile) folder = g_file_get_parent (file);
  g_autofree char *uri = folder != NULL ? g_file_get_uri (folder) : NULL;

  if (uri != NULL && self->settings != NULL)
    g_settings_set_string (self->settings, "last-folder", uri);
}

/**
 * lid_window_start_in_folder:
 * @chooser: begins in the folder used last, if that is still there
 */
void
lid_window_start_in_folder (LidWindow *self, GtkFileChooser *chooser)
{
  g_autofree char *uri
      = self->settings != NULL ? g_settings_get_string (self->settings, "last-folder") : NULL;
  g_autoptr (GFile) folder = uri != NULL && *uri != 0 ? g_file_new_for_uri (uri) : NULL;

  /* GTK begins with the recent files, of which a new user has none */
  if (folder == NULL)
    {
      GList *recent = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());

      if (recent == NULL)
        folder = g_file_new_for_path (g_get_home_dir ());
      g_list_free_full (recent, (GDestroyNotify)gtk_recent_info_unref);
    }
  if (folder != NULL && g_file_is_native (folder) && g_file_query_exists (folder, NULL))
    gtk_file_chooser_set_current_folder (chooser, folder, NULL);
}

void
lid_window_add_filter (GtkFileChooser *chooser, const char *name, const char *pattern)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, name);
  gtk_file_filter_add_pattern (filter, pattern);
  gtk_file_chooser_add_filter (chooser, filter);
}

static void
chosen_to_open (GtkNativeDialog *dialog, int response, LidWindow *self)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

  gtk_native_dialog_hide (dialog);
  if (response == GTK_RESPONSE_ACCEPT && file != NULL)
    lid_window_open (self, file);
  g_clear_object (&self->chooser);
}

void
lid_window_choose_job (LidWindow *self)
{
  GtkFileChooserNative *chooser
      = gtk_file_chooser_native_new (_ ("Open a Job or a Report"), GTK_WINDOW (self),
                                     GTK_FILE_CHOOSER_ACTION_OPEN, _ ("Open"), _ ("Cancel"));

  g_set_object (&self->chooser, GTK_NATIVE_DIALOG (chooser));
  g_object_unref (chooser);
  lid_window_add_filter (GTK_FILE_CHOOSER (chooser), _ ("Jobs and reports"), "*");
  lid_window_add_filter (GTK_FILE_CHOOSER (chooser), _ ("Jobs"), "*" LID_JOB_SUFFIX);
  lid_window_start_in_folder (self, GTK_FILE_CHOOSER (chooser));
  g_signal_connect_object (chooser, "response", G_CALLBACK (chosen_to_open), self, 0);
  gtk_native_dialog_show (self->chooser);
}

/* A name without a suffix gets the job's: else neither this program nor the desktop finds it. */
static GFile *
with_suffix (GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file), *longer = NULL;

  if (g_str_has_suffix (uri, LID_JOB_SUFFIX))
    return g_object_ref (file);
  longer = g_strconcat (uri, LID_JOB_SUFFIX, NULL);
  return g_file_new_for_uri (longer);
}

static void
chosen_to_save (GtkNativeDialog *dialog, int response, LidWindow *self)
{
  g_autoptr (GFile) chosen = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  g_autoptr (GFile) file = chosen != NULL ? with_suffix (chosen) : NULL;

  gtk_native_dialog_hide (dialog);
  g_clear_object (&self->chooser);
  if (response != GTK_RESPONSE_ACCEPT || file == NULL)
    lid_window_stay (self);
  else if (!g_file_equal (file, chosen) && g_file_query_exists (file, NULL))
    lid_window_ask_to_replace (self, file); /* the chooser asked about another name */
  else
    lid_window_saved (self, lid_window_save_to (self, file));
}

void
lid_window_save_as (LidWindow *self)
{
  g_autofree char *title = lid_job_model_get_title (self->model), *name = NULL;
  GtkFileChooserNative *chooser
      = gtk_file_chooser_native_new (_ ("Save the Job"), GTK_WINDOW (self),
                                     GTK_FILE_CHOOSER_ACTION_SAVE, _ ("Save"), _ ("Cancel"));

  g_set_object (&self->chooser, GTK_NATIVE_DIALOG (chooser));
  g_object_unref (chooser);
  lid_window_start_in_folder (self, GTK_FILE_CHOOSER (chooser));
  name = self->file != NULL ? g_file_get_basename (self->file)
                            : g_strconcat (g_strdelimit (title, "/", '-'), LID_JOB_SUFFIX, NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  g_signal_connect_object (chooser, "response", G_CALLBACK (chosen_to_save), self, 0);
  gtk_native_dialog_show (self->chooser);
}

static void
answered (GtkDialog *dialog, int response, LidWindow *self)
{
  const LidAnswer *answers = g_object_get_data (G_OBJECT (dialog), "answers");

  self->question = NULL;
  /* The window may go with the answer, while GTK still holds the dialog: they part first. */
  gtk_window_set_transient_for (GTK_WINDOW (dialog), NULL);
  gtk_window_destroy (GTK_WINDOW (dialog));
  answers[MAX (response, 0)].run (self); /* closed without an answer: the first */
}

/**
 * lid_window_dress:
 * @other: a window that belongs to this one, in its colours then
 */
void
lid_window_dress (LidWindow *self, GtkWidget *other)
{
  gtk_widget_add_css_class (other, "lid");
  for (guint i = 0; i < G_N_ELEMENTS (lid_window_looks); i++)
    if (gtk_widget_has_css_class (GTK_WIDGET (self), lid_window_looks[i]))
      gtk_widget_add_css_class (other, lid_window_looks[i]);
}

/**
 * lid_window_ask:
 * @question: one question
 * @detail: what follows from the answers
 * @answers: the first does no harm and is also the answer of Escape; the last is the one proposed
 * @n: how many
 */
void
lid_window_ask (
    LidWindow *self, const char *question, const char *detail, const LidAnswer *answers, guint n)
{
  GtkWidget *dialog = gtk_message_dialog_new (
      GTK_WINDOW (self), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, "%s", question);

  gtk_window_set_title (GTK_WINDOW (dialog), "Lidleaf");
  lid_window_dress (self, dialog);
  gtk_widget_add_css_class (dialog, "ask");
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", detail);
  for (guint i = 0; i < n; i++)
    {
      GtkWidget *button = gtk_dialog_add_button (GTK_DIALOG (dialog), _ (answers[i].words), (int)i);

      gtk_widget_add_css_class (button, i == n - 1 ? "proposed" : "other");
    }
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), (int)n - 1);
  g_object_set_data (G_OBJECT (dialog), "answers", (gpointer)answers);
  g_signal_connect_object (dialog, "response", G_CALLBACK (answered), self, 0);
  self->question = dialog;
  gtk_window_present (GTK_WINDOW (dialog));
}
