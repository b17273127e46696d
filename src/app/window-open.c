/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-open.c — what comes into the window: open, paste, drop, and the board that goes with it.
 */
#include "app/recent-jobs.h"
#include "app/window-private.h"

#include "board/board-newer.h"
#include "job/job-board.h"

#include <glib/gi18n.h>

#define MOST_REMARKS 3u
#define EXAMPLE "/org/lidleaf/Lidleaf/example.lidleaf"

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

/* What of the report is odd or could not be read, after what was said: the worst is not to know. */
static char *
with_remarks (const char *sentence, const LidInventory *inventory)
{
  GString *text = g_string_new (sentence);
  guint n = inventory != NULL ? inventory->remarks->len : 0;

  for (guint i = 0; i < MIN (n, MOST_REMARKS); i++)
    {
      const LidRemark *remark = inventory->remarks->pdata[i];

      g_string_append_printf (text, "\n%s: %s", remark->place, remark->what);
      if (remark->remedy != NULL)
        g_string_append_printf (text, " %s", remark->remedy);
    }
  if (n > MOST_REMARKS)
    {
      g_string_append_c (text, '\n');
      g_string_append_printf (text,
                              g_dngettext (NULL, "And %u more remark on this report.",
                                           "And %u more remarks on this report.", n - MOST_REMARKS),
                              n - MOST_REMARKS);
    }
  return g_string_free (text, FALSE);
}

/* Which board is used is always said, and what was odd: product.md 3. */
static void
say_match (LidWindow *self, const LidMatch *match, const LidInventory *inventory)
{
  g_autofree char *sentence = NULL, *differences = join (match->differences), *text = NULL;

  if (match->offered != NULL)
    sentence = g_strdup_printf (_ ("Drawn from the slot names alone. It may be a %s, but: %s"),
                                match->offered->name, differences);
  else if (match->kind == LID_MATCH_DERIVED)
    sentence
        = g_strdup (_ ("No board definition fits: drawn from the names as the firmware reports "
                       "them. Compare with the print on the board."));
  else if (match->board->derived)
    sentence = g_strdup_printf (_ ("The board of %s is known: channels as you taught them."),
                                match->board->name);
  else
    sentence = g_strdup_printf (_ ("The board is a %s: names and slots are those of its "
                                   "definition."),
                                match->board->name);
  text = with_remarks (sentence, inventory);
  lid_window_say_offer (self, text, match->offered != NULL ? _ ("Use this board") : NULL);
}

static void
say_newer (LidWindow *self, const LidJob *job)
{
  g_autoptr (GPtrArray) members = NULL;
  g_autofree char *sentence = NULL, *list = NULL;

  if (job->read_only)
    {
      lid_window_say (self, _ ("This job was written by a newer version and is open for reading "
                               "only. Save As makes a copy of the file as it is."));
      return;
    }
  self->newer = lid_board_newer_find (job->board, &members);
  if (self->newer == NULL)
    return;
  list = lid_job_board_differences (job, self->newer, members);
  sentence = g_strdup_printf (_ ("The definition of %s has changed since this job was made: %s. "
                                 "The job keeps the one it was made with until you take the newer "
                                 "one."),
                              self->newer->name, list);
  lid_window_say_offer (self, sentence, _ ("Take the newer definition"));
}

/* The job in the window, and what is said of it. */
static void
show_opened (LidWindow *self, LidOpened *opened, LidParts *parts, GFile *file)
{
  LidJob *job = g_steal_pointer (&opened->job);

  lid_job_opened_clear (&self->opened);
  g_clear_pointer (&self->newer, lid_board_unref);
  lid_window_say (self, NULL);
  lid_window_set_file (self, file);
  lid_window_take_job (self, job, parts, NULL);
  if (opened->match != NULL)
    say_match (self, opened->match, opened->inventory);
  else
    say_newer (self, job);
  self->opened = *opened;
  *opened = (LidOpened){ NULL, NULL, NULL };
}

/* A job made just now, or pasted, is nowhere on disk. */
static void
mark_unsaved (LidWindow *self)
{
  lid_edits_mark_unsaved (lid_job_model_get_edits (self->model));
  lid_job_model_edited (self->model);
}

/**
 * lid_window_for_job:
 *
 * Returns: (transfer none): @self when it shows no job yet; else another window, so that nothing
 * is closed by opening
 */
LidWindow *
lid_window_for_job (LidWindow *self)
{
  LidWindow *other;

  if (self->model == NULL)
    return self;
  other = lid_window_new (gtk_window_get_application (GTK_WINDOW (self)));
  gtk_window_present (GTK_WINDOW (other));
  return other;
}

/* Two windows on one file would overwrite each other's work. */
static LidWindow *
window_of (LidWindow *self, GFile *file)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));
  GList *windows = application != NULL ? gtk_application_get_windows (application) : NULL;

  for (; windows != NULL; windows = windows->next)
    if (LID_IS_WINDOW (windows->data) && LID_WINDOW (windows->data)->file != NULL
        && g_file_equal (LID_WINDOW (windows->data)->file, file))
      return windows->data;
  return NULL;
}

/**
 * lid_window_open:
 * @file: a job document or an inventory
 *
 * A window that shows a job leaves it alone: the file is shown in another one, or in the one that
 * shows it already.
 *
 * Returns: whether it is shown; if not, the bar says why
 */
gboolean
lid_window_open (LidWindow *self, GFile *file)
{
  g_autofree char *path = g_file_get_path (file);
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (GError) error = NULL;
  LidWindow *window = window_of (self, file);
  LidParts *parts;

  if (path == NULL)
    lid_window_say (self, _ ("This place has no path on this machine: copy the file here first."));
  if (window != NULL)
    gtk_window_present (GTK_WINDOW (window));
  if (path == NULL || window != NULL)
    return path != NULL;
  parts = lid_window_load_parts (self);
  if (!lid_job_open (path, NULL, parts, &opened, &error))
    {
      g_clear_pointer (&parts, lid_parts_free);
      lid_window_say (self, error->message);
      return FALSE;
    }
  window = lid_window_for_job (self);
  lid_window_keep_folder (window, file);
  show_opened (window, &opened, parts, opened.inventory == NULL ? file : NULL);
  if (window->opened.inventory != NULL)
    mark_unsaved (window);
  else
    lid_window_remember (window);
  return TRUE;
}

/* What offers a board in the bar was answered, or there is nothing to answer. */
static void
take_board (LidWindow *self, LidJob *job, const char *name, GError *const *error)
{
  g_autofree char *step = NULL, *sentence = NULL;
  GError *refused = NULL;

  if (job == NULL)
    {
      lid_window_say (self, (*error)->message);
      return;
    }
  /* Translators: what undo takes back: the board a job was put on. */
  step = g_strdup_printf (_ ("board %s"), name);
  lid_window_say (self, NULL);
  if (lid_window_edit (
          self, lid_edits_become (lid_job_model_get_edits (self->model), job, step, &refused),
          &refused))
    {
      sentence = g_strdup_printf (_ ("The job is on the board %s now; Undo brings the one before "
                                     "back."),
                                  name);
      lid_window_say (self, sentence);
    }
  g_clear_error (&refused);
}

/**
 * lid_window_use_offered:
 *
 * Takes the board the bar offers: one that may be meant, or a newer definition of the job's own.
 * Nothing done meanwhile is lost, and undo takes it back.
 */
void
lid_window_use_offered (LidWindow *self)
{
  const LidJob *job = lid_job_model_get_job (self->model);
  g_autoptr (LidBoard) newer = g_steal_pointer (&self->newer);
  g_autoptr (GError) error = NULL;
  LidJob *moved;

  if (newer != NULL)
    {
      moved = lid_job_board_move (job, newer, NULL, &error);
      if (moved != NULL)
        lid_job_remember (moved, "changed", _ ("newer definition taken: %s, version %u"),
                          newer->name, newer->version);
      take_board (self, moved, newer->name, &error);
    }
  else if (self->opened.match != NULL && self->opened.match->offered != NULL)
    take_board (self, lid_job_open_offered (job, &self->opened, &error),
                self->opened.match->offered->name, &error);
}

/* What has no file of its own: pasted, or in the program. */
static LidWindow *
open_bytes (LidWindow *self, GBytes *bytes, const char *source)
{
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (GError) error = NULL;
  LidParts *parts = lid_window_load_parts (self);
  LidWindow *window;

  if (!lid_job_open_bytes (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), source, NULL,
                           parts, &opened, &error))
    {
      g_clear_pointer (&parts, lid_parts_free);
      lid_window_say (self, error->message);
      return NULL;
    }
  window = lid_window_for_job (self);
  show_opened (window, &opened, parts, NULL);
  return window;
}

/**
 * lid_window_paste_text:
 * @text: a report or a job document as somebody copied it
 *
 * Returns: whether it is shown
 */
gboolean
lid_window_paste_text (LidWindow *self, const char *text)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  LidWindow *window = open_bytes (self, bytes, _ ("Pasted report"));

  if (window != NULL)
    mark_unsaved (window);
  return window != NULL;
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

/**
 * lid_window_open_example:
 *
 * The example is in the program itself, so it is there wherever the program is, and saving it asks
 * for a place.
 */
void
lid_window_open_example (LidWindow *self)
{
  g_autoptr (GBytes) bytes = g_resources_lookup_data (EXAMPLE, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);

  g_return_if_fail (bytes != NULL);
  open_bytes (self, bytes, _ ("Example"));
}

/**
 * lid_window_open_recent:
 * @uri: a job of the recent ones
 */
void
lid_window_open_recent (LidWindow *self, const char *uri)
{
  g_autoptr (GFile) file = g_file_new_for_uri (uri);
  g_autofree char *sentence = NULL, *name = NULL;

  if (g_file_query_exists (file, NULL))
    {
      lid_window_open (self, file);
      return;
    }
  lid_recent_jobs_drop (file);
  name = g_file_get_parse_name (file);
  sentence
      = g_strdup_printf (_ ("%s is not there any more, so it is taken off the recent jobs."), name);
  lid_window_say (self, sentence);
}

/**
 * lid_window_open_files:
 * @files: (element-type GFile): what was dropped or named
 *
 * Returns: whether at least one is shown
 */
gboolean
lid_window_open_files (LidWindow *self, const GSList *files)
{
  gboolean shown = FALSE;

  for (; files != NULL; files = files->next)
    shown = lid_window_open (self, files->data) || shown;
  return shown;
}

gboolean
lid_window_dropped (GtkDropTarget *target, const GValue *value, double x, double y, LidWindow *self)
{
  GdkFileList *list = g_value_get_boxed (value);
  g_autoptr (GSList) files = list != NULL ? gdk_file_list_get_files (list) : NULL;

  return lid_window_open_files (self, files);
}
