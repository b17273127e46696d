/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-files.c — what comes into the window and what is kept: open, paste, drop, save, close. */
#include "app/window-private.h"

#include "board/board-newer.h"
#include "job/job-file.h"

#include <glib/gi18n.h>
#include <glib/gstdio.h>

#define JOB_SUFFIX ".lidleaf"

LidParts *
lid_window_load_parts (LidWindow *self)
{
  g_autofree char *path = lid_parts_default_path ();
  g_autoptr (GError) error = NULL;
  LidParts *parts = lid_parts_load (path, &error);

  if (parts == NULL)
    g_message ("%s", error->message);
  return parts;
}

static char *
join (const GPtrArray *differences)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; differences != NULL && i < differences->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? " " : "", (const char *)differences->pdata[i]);
  return g_string_free (text, FALSE);
}

/* Which board is used is always said: product.md 3. */
static void
say_match (LidWindow *self, const LidMatch *match)
{
  g_autofree char *sentence = NULL, *differences = join (match->differences);

  if (match->offered != NULL)
    {
      self->offered = lid_board_ref (match->offered);
      sentence = g_strdup_printf (_ ("Drawn from the slot names alone. It may be a %s, but: %s"),
                                  match->offered->name, differences);
      lid_window_say_offer (self, sentence, _ ("Use this board"));
      return;
    }
  if (match->kind == LID_MATCH_DERIVED)
    sentence
        = g_strdup (_ ("No board definition fits: drawn from the names as the firmware reports "
                       "them. Compare with the print on the board."));
  else
    sentence = g_strdup_printf (_ ("The board is a %s: names and slots are those of its "
                                   "definition."),
                                match->board->name);
  lid_window_say (self, sentence);
}

static void
say_newer (LidWindow *self, const LidJob *job)
{
  g_autoptr (GPtrArray) differences = NULL;
  g_autoptr (LidBoard) newer = lid_board_newer_find (job->board, &differences);
  g_autofree char *sentence = NULL, *list = NULL;

  if (job->read_only)
    lid_window_say (self, _ ("This job was written by a newer version and is open for reading "
                             "only."));
  if (job->read_only || newer == NULL)
    return;
  list = join (differences);
  sentence
      = g_strdup_printf (_ ("The definition of %s has changed since this job was made (%s); the "
                            "job keeps the one it was made with."),
                         newer->name, list);
  lid_window_say (self, sentence);
}

static void
remember_recent (GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file);

  gtk_recent_manager_add_item (gtk_recent_manager_get_default (), uri);
}

static gboolean
open_path (LidWindow *self, const char *path, const LidBoard *board)
{
  g_autoptr (GError) error = NULL;
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  LidParts *parts = lid_window_load_parts (self);

  if (!lid_job_open (path, board, parts, &opened, &error))
    {
      g_clear_pointer (&parts, lid_parts_free);
      lid_window_say (self, error->message);
      return FALSE;
    }
  g_clear_pointer (&self->offered, lid_board_unref);
  lid_window_say (self, NULL);
  if (opened.match != NULL)
    say_match (self, opened.match);
  else
    say_newer (self, opened.job);
  g_clear_object (&self->file);
  lid_window_take_job (self, g_steal_pointer (&opened.job), parts);
  if (opened.inventory != NULL)
    {
      /* A job made just now is nowhere on disk. */
      lid_edits_mark_unsaved (lid_job_model_get_edits (self->model));
      lid_job_model_edited (self->model);
    }
  return TRUE;
}

/* What is not saved stays in its window: another one opens for the new job. */
static LidWindow *
window_for (LidWindow *self)
{
  LidWindow *other;

  if (self->model == NULL || !lid_job_model_get_unsaved (self->model))
    return self;
  other = lid_window_new (gtk_window_get_application (GTK_WINDOW (self)));
  gtk_window_present (GTK_WINDOW (other));
  return other;
}

/**
 * lid_window_open:
 * @file: a job document or an inventory
 *
 * Returns: whether it is shown; if not, the bar says why
 */
gboolean
lid_window_open (LidWindow *self, GFile *file)
{
  g_autofree char *path = g_file_get_path (file);
  LidWindow *window;

  if (path == NULL)
    {
      lid_window_say (self,
                      _ ("This place has no path on this machine: copy the file here first."));
      return FALSE;
    }
  window = window_for (self);
  if (!open_path (window, path, NULL))
    return FALSE;
  remember_recent (file);
  g_set_object (&window->source, file);
  if (!lid_job_model_get_unsaved (window->model))
    g_set_object (&window->file, file);
  return TRUE;
}

void
lid_window_use_offered (LidWindow *self)
{
  g_autoptr (LidBoard) board = g_steal_pointer (&self->offered);
  g_autofree char *path = self->source != NULL ? g_file_get_path (self->source) : NULL;

  if (board != NULL && path != NULL)
    open_path (self, path, board);
}

/**
 * lid_window_paste_text:
 * @text: a report as somebody copied it
 *
 * Readers take files; the text is in one for as long as they look at it.
 *
 * Returns: whether it is shown
 */
gboolean
lid_window_paste_text (LidWindow *self, const char *text)
{
  g_autofree char *folder = g_dir_make_tmp ("lidleaf-XXXXXX", NULL);
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;
  gboolean ok;

  if (folder == NULL)
    return FALSE;
  path = g_build_filename (folder, "pasted-report", NULL);
  ok = g_file_set_contents (path, text, -1, &error);
  if (!ok)
    lid_window_say (self, error->message);
  else
    {
      LidWindow *window = window_for (self);

      ok = open_path (window, path, NULL);
      g_clear_object (&window->source);
      if (ok && window->offered != NULL)
        gtk_widget_set_visible (window->bar_button, FALSE);
    }
  g_unlink (path);
  g_rmdir (folder);
  return ok;
}

static void
got_text (GObject *clipboard, GAsyncResult *result, gpointer data)
{
  g_autoptr (LidWindow) self = data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);

  if (text == NULL || *text == 0)
    lid_window_say (self, _ ("The clipboard holds no text: copy the report first."));
  else
    lid_window_paste_text (self, text);
}

void
lid_window_paste (LidWindow *self)
{
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL, got_text,
                                 g_object_ref (self));
}

gboolean
lid_window_dropped (GtkDropTarget *target, const GValue *value, double x, double y, LidWindow *self)
{
  GdkFileList *list = g_value_get_boxed (value);
  g_autoptr (GSList) files = list != NULL ? gdk_file_list_get_files (list) : NULL;

  return files != NULL && lid_window_open (self, files->data);
}

/**
 * lid_window_save_to:
 * @file: where to
 *
 * Returns: whether the job is on disk; if not, the bar says why
 */
gboolean
lid_window_save_to (LidWindow *self, GFile *file)
{
  g_autofree char *path = g_file_get_path (file);
  g_autoptr (GError) error = NULL;

  if (path == NULL)
    {
      lid_window_say (self, _ ("This place has no path on this machine: choose another."));
      return FALSE;
    }
  if (!lid_job_file_save (lid_job_model_get_job (self->model), path, &error))
    {
      lid_window_say (self, error->message);
      return FALSE;
    }
  g_set_object (&self->file, file);
  lid_job_model_saved (self->model);
  remember_recent (file);
  return TRUE;
}

static void
add_filter (GtkFileChooser *chooser, const char *name, const char *pattern)
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
  add_filter (GTK_FILE_CHOOSER (chooser), _ ("Jobs and reports"), "*");
  add_filter (GTK_FILE_CHOOSER (chooser), _ ("Jobs"), "*" JOB_SUFFIX);
  g_signal_connect_object (chooser, "response", G_CALLBACK (chosen_to_open), self, 0);
  gtk_native_dialog_show (self->chooser);
}

static void
chosen_to_save (GtkNativeDialog *dialog, int response, LidWindow *self)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  gboolean saved;

  gtk_native_dialog_hide (dialog);
  saved = response == GTK_RESPONSE_ACCEPT && file != NULL && lid_window_save_to (self, file);
  g_clear_object (&self->chooser);
  if (saved && self->closing)
    gtk_window_close (GTK_WINDOW (self));
  self->closing = FALSE;
}

void
lid_window_save_as (LidWindow *self)
{
  g_autofree char *title = lid_job_model_get_title (self->model);
  g_autofree char *name = NULL;
  GtkFileChooserNative *chooser
      = gtk_file_chooser_native_new (_ ("Save the Job"), GTK_WINDOW (self),
                                     GTK_FILE_CHOOSER_ACTION_SAVE, _ ("Save"), _ ("Cancel"));

  g_set_object (&self->chooser, GTK_NATIVE_DIALOG (chooser));
  g_object_unref (chooser);
  name = g_strconcat (g_strdelimit (title, "/", '-'), JOB_SUFFIX, NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  g_signal_connect_object (chooser, "response", G_CALLBACK (chosen_to_save), self, 0);
  gtk_native_dialog_show (self->chooser);
}

void
lid_window_save (LidWindow *self)
{
  if (self->file != NULL)
    lid_window_save_to (self, self->file);
  else
    lid_window_save_as (self);
}

static void
answered (GtkDialog *dialog, int response, LidWindow *self)
{
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (response == GTK_RESPONSE_REJECT)
    {
      self->closing = TRUE;
      gtk_window_destroy (GTK_WINDOW (self));
    }
  else if (response == GTK_RESPONSE_ACCEPT && self->file == NULL)
    {
      self->closing = TRUE;
      lid_window_save_as (self);
    }
  else if (response == GTK_RESPONSE_ACCEPT && lid_window_save_to (self, self->file))
    gtk_window_close (GTK_WINDOW (self));
}

/**
 * lid_window_ask_to_close:
 *
 * Returns: whether the window must stay, because the user is asked about unsaved changes
 */
gboolean
lid_window_ask_to_close (LidWindow *self)
{
  g_autofree char *title = NULL;
  GtkWidget *dialog;

  if (self->model == NULL || !lid_job_model_get_unsaved (self->model))
    return FALSE;
  title = lid_job_model_get_title (self->model);
  dialog = gtk_message_dialog_new (
      GTK_WINDOW (self), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, _ ("Save the changes of “%s”?"), title);
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s",
                                            _ ("What is not saved is lost."));
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("Close without Saving"), GTK_RESPONSE_REJECT);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("Cancel"), GTK_RESPONSE_CANCEL);
  gtk_dialog_add_button (GTK_DIALOG (dialog), _ ("Save"), GTK_RESPONSE_ACCEPT);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_ACCEPT);
  g_signal_connect_object (dialog, "response", G_CALLBACK (answered), self, 0);
  gtk_window_present (GTK_WINDOW (dialog));
  return TRUE;
}
