/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-stages.c — a plan in two visits: asked about, printed stage by stage, taken. */
#include "app/bench-view.h"
#include "app/help.h"
#include "app/stages-view.h"
#include "app/window-private.h"

#include "changeover/stages.h"
#include "planner/plan-shelf.h"

#include <glib/gi18n.h>

/* The job becomes what was split, as one step. @job is taken. */
static void
become (LidWindow *self, LidJob *job, const char *name, const char *sentence)
{
  LidEdits *edits = lid_job_model_get_edits (self->model);
  g_autoptr (GError) error = NULL;

  if (!lid_window_edit (self, lid_edits_become (edits, job, name, &error), &error))
    return;
  lid_job_model_set_of (self->model, LID_PLANNED);
  lid_window_say (self, sentence);
  gtk_widget_activate_action (gtk_widget_get_first_child (self->board_place), "bench.back", NULL);
}

static void
wanted (LidStagesView *view, LidStageWish wish, guint stage, LidWindow *self)
{
  const LidJob *shown = lid_stages_view_get_job (view);
  g_autoptr (GError) error = NULL;
  LidJob *job = shown != NULL ? lid_stages_copy_job (shown, &error) : NULL;

  if (job == NULL)
    {
      lid_window_say (self, error != NULL ? error->message : NULL);
      return;
    }
  switch (wish)
    {
    case LID_STAGE_PRINT:
      lid_window_print_stage (self, job, stage);
      break;
    case LID_STAGE_EXPORT:
      lid_window_export_stage (self, job, stage);
      break;
    case LID_STAGE_TAKE:
      lid_stages_keep_one (job, stage);
      become (self, job, _ ("plan what can be done tonight"),
              _ ("What can be done tonight is the whole plan now; undo brings the rest back."));
      break;
    case LID_STAGE_KEEP:
    default:
      become (self, job, _ ("plan two visits"),
              _ ("The job holds both visits; what is shown as planned is what later makes of it."));
    }
}

/* The page may be gone when the shelf is read. */
static void
shelf_read (GObject *source, GAsyncResult *result, gpointer data)
{
  GWeakRef *page = data;
  g_autoptr (LidStagesView) view = g_weak_ref_get (page);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidShelf) shelf = lid_shelf_read_finish (result, &error);

  /* One that cannot be read is not asked about here: the page says that none was looked at. */
  if (view != NULL && shelf != NULL)
    lid_stages_view_use_shelf (view, shelf);
  g_weak_ref_clear (page);
  g_free (page);
}

/* The shelf that is planned with, as it is now: other jobs may have put modules by since. */
static void
ask_shelf (LidWindow *self, LidStagesView *view)
{
  g_autofree char *uri
      = self->settings != NULL ? g_settings_get_string (self->settings, "shelf") : NULL;
  g_autoptr (GFile) file = uri != NULL && *uri != 0 ? g_file_new_for_uri (uri) : NULL;
  g_autofree char *whose = lid_plan_shelf_job (lid_job_model_get_job (self->model));
  GWeakRef *page;

  if (file == NULL || !g_file_query_exists (file, NULL))
    return;
  page = g_new0 (GWeakRef, 1);
  g_weak_ref_init (page, view);
  lid_shelf_read_async (file, 0, whose, NULL, shelf_read, page);
}

/**
 * lid_window_stages:
 *
 * Asks what of the plan is not there, and shows what can be done tonight and what later.
 */
void
lid_window_stages (LidWindow *self)
{
  GtkWidget *bench = gtk_widget_get_first_child (self->board_place);
  GtkWidget *view = lid_stages_view_new (self->model);

  lid_help_set_words (view, "stage");
  gtk_widget_set_margin_start (view, 24);
  gtk_widget_set_margin_end (view, 24);
  gtk_widget_set_margin_bottom (view, 12);
  g_signal_connect_object (view, "wanted", G_CALLBACK (wanted), self, 0);
  ask_shelf (self, LID_STAGES_VIEW (view));
  lid_bench_view_show_page (LID_BENCH_VIEW (bench), view);
}
