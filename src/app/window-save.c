/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-save.c — what is kept: saving, closing, and the questions before something is lost. */
#include "app/recent-jobs.h"
#include "app/window-private.h"

#include "base/save.h"
#include "job/job-file.h"

#include <glib/gi18n.h>

/* What tells one state of a file from another; NULL: it is not there. */
static char *
stamp_of (GFile *file)
{
  g_autoptr (GFileInfo) info
      = g_file_query_info (file, G_FILE_ATTRIBUTE_ETAG_VALUE "," G_FILE_ATTRIBUTE_STANDARD_SIZE,
                           G_FILE_QUERY_INFO_NONE, NULL, NULL);

  if (info == NULL)
    return NULL;
  return g_strdup_printf ("%s %" G_GOFFSET_FORMAT, g_file_info_get_etag (info),
                          g_file_info_get_size (info));
}

/**
 * lid_window_set_file:
 * @file: (nullable): the job's own file, as it is on disk now
 */
void
lid_window_set_file (LidWindow *self, GFile *file)
{
  g_set_object (&self->file, file);
  g_free (self->stamp);
  self->stamp = file != NULL ? stamp_of (file) : NULL;
  if (self->keeper != NULL)
    lid_job_keeper_set_path (self->keeper, file != NULL ? g_file_peek_path (file) : NULL);
}

/**
 * lid_window_remember:
 *
 * The job goes to the top of the recent ones.
 */
void
lid_window_remember (LidWindow *self)
{
  g_autofree char *title = lid_job_model_get_title (self->model);

  if (self->file != NULL)
    lid_recent_jobs_add (self->file, title);
}

/* A job of a newer version is not understood whole: it is copied, byte for byte. */
static gboolean
copy_file (LidWindow *self, const char *path, GError **error)
{
  g_autofree char *bytes = NULL;
  gsize size;

  if (self->file == NULL)
    {
      g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_NOENT,
                           _ ("This job was written by a newer version and came without a file: "
                              "there is none to copy."));
      return FALSE;
    }
  return g_file_load_contents (self->file, NULL, &bytes, &size, NULL, error)
         && lid_save_bytes (path, bytes, size, 0666, error);
}

/**
 * lid_window_save_to:
 * @file: where to; what is there is replaced
 *
 * Returns: whether the job is on disk; if not, the bar says why
 */
gboolean
lid_window_save_to (LidWindow *self, GFile *file)
{
  g_autofree char *path = g_file_get_path (file);
  const LidJob *job = lid_job_model_get_job (self->model);
  g_autoptr (GError) error = NULL;
  g_autofree char *sentence = NULL;

  if (path == NULL)
    {
      lid_window_say (self, _ ("This place has no path on this machine: choose another."));
      return FALSE;
    }
  if (job->read_only ? !copy_file (self, path, &error) : !lid_job_file_save (job, path, &error))
    {
      sentence = g_strdup_printf (_ ("Not saved: %s"), error->message);
      lid_window_say (self, sentence);
      return FALSE;
    }
  lid_window_set_file (self, file);
  lid_job_model_saved (self->model);
  lid_window_keep_folder (self, file);
  lid_window_remember (self);
  return TRUE;
}

/**
 * lid_window_stay:
 *
 * The window is not closed after all, nor the program.
 */
void
lid_window_stay (LidWindow *self)
{
  self->closing = FALSE;
  g_clear_object (&self->replaced);
  g_signal_emit_by_name (self, "stays");
}

/**
 * lid_window_saved:
 * @saved: whether it was; then a window that was being closed closes
 */
void
lid_window_saved (LidWindow *self, gboolean saved)
{
  gboolean closing = self->closing;

  if (!saved)
    lid_window_stay (self);
  self->closing = FALSE;
  if (saved && closing)
    gtk_window_close (GTK_WINDOW (self));
}

static void
replace (LidWindow *self)
{
  g_autoptr (GFile) file = g_steal_pointer (&self->replaced);

  lid_window_saved (self, lid_window_save_to (self, file));
}

static void
choose_another (LidWindow *self)
{
  g_clear_object (&self->replaced);
  lid_window_save_as (self);
}

static const LidAnswer replace_answers[] = {
  { N_ ("Cancel"), lid_window_stay },
  { N_ ("Overwrite"), replace },
  { N_ ("Save As…"), choose_another },
};

/**
 * lid_window_ask_to_replace:
 * @file: a file that is there, and was not chosen knowingly
 */
void
lid_window_ask_to_replace (LidWindow *self, GFile *file)
{
  g_autofree char *name = g_file_get_parse_name (file);
  g_autofree char *question = g_strdup_printf (_ ("Overwrite what is in “%s”?"), name);
  gboolean own = self->file != NULL && g_file_equal (file, self->file);

  g_set_object (&self->replaced, file);
  lid_window_ask (self, question,
                  own ? _ ("The file was changed since it was opened here. Overwriting it loses "
                           "those changes.")
                      : _ ("There is such a file already. Overwriting it loses what is in it."),
                  replace_answers, G_N_ELEMENTS (replace_answers));
}

/**
 * lid_window_save:
 *
 * To the job's own file; asks where it has none, and before it overwrites what somebody else wrote
 * meanwhile.
 */
void
lid_window_save (LidWindow *self)
{
  g_autofree char *now = self->file != NULL ? stamp_of (self->file) : NULL;

  if (self->file == NULL)
    lid_window_save_as (self);
  else if (now != NULL && g_strcmp0 (now, self->stamp) != 0)
    lid_window_ask_to_replace (self, self->file);
  else
    lid_window_saved (self, lid_window_save_to (self, self->file));
}

static void
give_up (LidWindow *self)
{
  if (self->keeper != NULL)
    lid_job_keeper_forget (self->keeper);
  gtk_window_destroy (GTK_WINDOW (self));
}

static void
save_and_close (LidWindow *self)
{
  self->closing = TRUE;
  lid_window_save (self);
}

static const LidAnswer close_answers[] = {
  { N_ ("Cancel"), lid_window_stay },
  { N_ ("Close without Saving"), give_up },
  { N_ ("Save"), save_and_close },
};

/**
 * lid_window_ask_to_close:
 *
 * Returns: whether the window must stay, because the user is asked about unsaved changes
 */
gboolean
lid_window_ask_to_close (LidWindow *self)
{
  g_autofree char *title = NULL, *question = NULL;
  gboolean never;

  if (self->question != NULL)
    {
      gtk_window_present (GTK_WINDOW (self->question));
      return TRUE;
    }
  if (self->model == NULL || !lid_job_model_get_unsaved (self->model))
    return FALSE;
  title = lid_job_model_get_title (self->model);
  never = self->file == NULL;
  question = never ? g_strdup_printf (_ ("Save the job “%s”?"), title)
                   : g_strdup_printf (_ ("Save the changes of “%s”?"), title);
  lid_window_ask (self, question,
                  never ? _ ("It was never saved. What is not saved is lost.")
                        : _ ("What is not saved is lost."),
                  close_answers, G_N_ELEMENTS (close_answers));
  return TRUE;
}
