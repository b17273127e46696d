/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-recovery.c — work that a program left behind when it was ended: offered, taken up, or
 * discarded. */
#include "app/window-actions.h"
#include "app/window-private.h"

#include "job/job-file.h"

#include <glib/gi18n.h>
#include <string.h>

/* "today at 14:05", or the day too. */
static char *
time_words (gint64 when)
{
  g_autoptr (GDateTime) then = g_date_time_new_from_unix_local (when);
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();

  if (then == NULL)
    return g_strdup ("");
  if (g_date_time_get_year (then) == g_date_time_get_year (now)
      && g_date_time_get_day_of_year (then) == g_date_time_get_day_of_year (now))
    /* Translators: a time, as strftime writes it. */
    return g_date_time_format (then, _ ("today at %H:%M"));
  /* Translators: a day and a time, as strftime writes them. */
  return g_date_time_format (then, _ ("%e %B %Y at %H:%M"));
}

static char *
offer_words (const LidRecovered *left, guint others)
{
  g_autofree char *when = time_words (left->when), *first = NULL;
  const char *title = left->title;

  if (left->when == 0)
    first = g_strdup (_ ("A job was not saved when the program ended."));
  else
    first = g_strdup_printf (_ ("“%s” was not saved when the program ended, %s."),
                             title != NULL ? title : _ ("A machine without a name"), when);
  if (others == 0)
    return g_steal_pointer (&first);
  /* Translators: the first is a whole sentence. */
  return g_strdup_printf (ngettext ("%s %u more is waiting.", "%s %u more are waiting.", others),
                          first, others);
}

static void
show_left (LidWindow *self)
{
  gboolean some = self->left != NULL && self->left->len > 0;
  g_autofree char *words = NULL;

  gtk_widget_set_visible (self->left_bar, some);
  lid_window_actions_enable (self, "take-up", some);
  lid_window_actions_enable (self, "discard", some);
  if (!some)
    return;
  words = offer_words (self->left->pdata[0], self->left->len - 1);
  gtk_label_set_text (self->left_label, words);
}

/**
 * lid_window_offer_left:
 *
 * Says in a bar of its own what was left behind, the latest first, one after the other.
 */
void
lid_window_offer_left (LidWindow *self)
{
  g_autofree char *folder = lid_recovery_default_folder ();

  g_clear_pointer (&self->left, g_ptr_array_unref);
  self->left = lid_recovery_list (folder);
  show_left (self);
}

/* A file that was written to after this work was kept is not what the work was made on. */
static void
set_file (LidWindow *self, const char *path, gint64 when)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFileInfo) info = g_file_query_info (file, G_FILE_ATTRIBUTE_TIME_MODIFIED,
                                                  G_FILE_QUERY_INFO_NONE, NULL, NULL);

  lid_window_set_file (self, file);
  if (info != NULL
      && g_file_info_get_attribute_uint64 (info, G_FILE_ATTRIBUTE_TIME_MODIFIED) > (guint64)when)
    {
      g_free (self->stamp);
      self->stamp = g_strdup ("");
    }
}

static gboolean
take_up (LidWindow *self, const LidRecovered *left)
{
  g_autofree char *path = NULL, *text = NULL, *when = NULL, *sentence = NULL;
  g_autoptr (GError) error = NULL;
  LidRecovery *recovery = lid_recovery_take_up (left->file, &path, &text, &error);
  LidJob *job = recovery != NULL ? lid_job_file_parse (text, strlen (text), &error) : NULL;
  LidWindow *window;

  if (job == NULL)
    {
      g_clear_pointer (&recovery, lid_recovery_free);
      sentence = g_strdup_printf (_ ("This work cannot be taken up; its file stays: %s"),
                                  error->message);
      lid_window_say (self, sentence);
      return FALSE;
    }
  window = lid_window_for_job (self);
  lid_window_say (window, NULL);
  lid_window_set_file (window, NULL);
  lid_window_take_job (window, job, lid_window_load_parts (window), recovery);
  if (path != NULL)
    set_file (window, path, left->when);
  lid_edits_mark_unsaved (lid_job_model_get_edits (window->model));
  lid_job_model_edited (window->model);
  when = time_words (left->when);
  sentence = g_strdup_printf (_ ("Taken up as it was, %s. It is not saved yet."), when);
  lid_window_say (window, sentence);
  return TRUE;
}

/**
 * lid_window_take_up:
 *
 * Opens the work that is offered, as it was, not saved yet.
 */
void
lid_window_take_up (LidWindow *self)
{
  if (self->left == NULL || self->left->len == 0)
    return;
  take_up (self, self->left->pdata[0]);
  g_ptr_array_remove_index (self->left, 0);
  show_left (self);
}

static void
discard (LidWindow *self)
{
  const LidRecovered *left = self->left->pdata[0];
  g_autoptr (GError) error = NULL;

  if (!lid_recovery_discard (left->file, &error))
    lid_window_say (self, error->message);
  g_ptr_array_remove_index (self->left, 0);
  show_left (self);
}

static void
keep (LidWindow *self)
{
}

static const LidAnswer answers[] = {
  { N_ ("Cancel"), keep },
  { N_ ("Discard"), discard },
  { N_ ("Take It Up"), lid_window_take_up },
};

void
lid_window_discard (LidWindow *self)
{
  const LidRecovered *left
      = self->left != NULL && self->left->len > 0 ? self->left->pdata[0] : NULL;
  g_autofree char *question = NULL;

  if (left == NULL || self->question != NULL)
    return;
  question = g_strdup_printf (_ ("Discard the unsaved work on “%s”?"),
                              left->title != NULL ? left->title : _ ("A machine without a name"));
  lid_window_ask (self, question, _ ("It cannot be brought back."), answers,
                  G_N_ELEMENTS (answers));
}
