/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-board.c — the board, the tray and the hands between them, for the job of a window. */
#include "app/bench-view.h"
#include "app/facts-popover.h"
#include "app/module-tray.h"
#include "app/window-private.h"

#include "board/board-list.h"

#include <glib/gi18n.h>

static gboolean
was_taught_here (LidWindow *self, const LidBoard *board)
{
  return board != NULL && g_ptr_array_find (self->taught, board, NULL);
}

/* What was taught is one of the user's boards for as long as it is not undone: the next machine of
 * this kind is known by itself. A folder that cannot be written does not take the channels from
 * this job. */
static void
keep_taught (LidWindow *self, LidBoard *old, LidBoard *board)
{
  g_autoptr (GError) error = NULL;

  if (was_taught_here (self, old))
    lid_board_list_drop_user (old);
  if (was_taught_here (self, board) && !lid_board_list_save_user (board, &error))
    lid_window_say (self, error->message);
}

/* When they are asked for: a start would make them for nobody. */
static void
make_facts (GtkMenuButton *button, gpointer data)
{
  GtkWidget *facts = lid_facts_popover_new ();

  lid_facts_popover_set_model (LID_FACTS_POPOVER (facts), LID_WINDOW (data)->model);
  gtk_menu_button_set_popover (button, facts);
}

/**
 * lid_window_follow_board:
 *
 * The job came to be on another board: by teaching, or by undoing it.
 */
void
lid_window_follow_board (LidWindow *self)
{
  LidBoard *board = lid_job_model_get_job (self->model)->board, *old = self->shown;

  if (board == old)
    return;
  self->shown = lid_board_ref (board);
  keep_taught (self, old, board);
  g_clear_pointer (&old, lid_board_unref);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->facts_button), NULL);
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (self->facts_button), make_facts, self,
                                         NULL);
}

/* The same machine on a board whose channels are told. */
static void
taught (LidBenchView *bench, LidWindow *self)
{
  LidJob *job = lid_teach_view_take_job (lid_bench_view_get_teach_view (bench));
  LidEdits *edits;
  g_autoptr (LidBoard) before = NULL, kept = NULL;
  g_autoptr (GError) error = NULL;

  if (job == NULL)
    return;
  edits = lid_job_model_get_edits (self->model);
  before = lid_board_ref (lid_edits_job (edits)->board);
  kept = lid_board_list_load (before->id, NULL);
  if (kept != NULL && g_strcmp0 (kept->hash, before->hash) == 0)
    g_ptr_array_add (self->taught, lid_board_ref (before)); /* undoing brings its file back */
  g_ptr_array_add (self->taught, lid_board_ref (job->board));
  lid_window_say (self, NULL);
  if (lid_window_edit (self, lid_edits_become (edits, job, _ ("teach the channels"), &error),
                       &error)
      && *lid_window_get_sentence (self) == 0)
    lid_window_say (self, _ ("The channels are as you taught them. The board is kept as yours: the "
                             "next machine of this kind is known by itself."));
  gtk_widget_grab_focus (GTK_WIDGET (lid_bench_view_get_board (bench)));
}

/**
 * lid_window_teach:
 *
 * Shows the patterns, also where channels were told or taught before and turned out wrong.
 */
void
lid_window_teach (LidWindow *self)
{
  gtk_widget_activate_action (gtk_widget_get_first_child (self->board_place), "bench.teach", NULL);
}

/**
 * lid_window_leave_page:
 *
 * Back to the board from plans and patterns: who turns to another population wants to see it. The
 * switch of views is there with the board alone.
 */
void
lid_window_leave_page (LidWindow *self)
{
  GtkWidget *bench = gtk_widget_get_first_child (self->board_place);

  if (!gtk_widget_get_visible (lid_bench_view_get_switch (LID_BENCH_VIEW (bench))))
    gtk_widget_activate_action (bench, "bench.back", NULL);
}

/* Remembered: who explains to owners all day wants it each time. */
static void
before_after_changed (LidWindow *self)
{
  LidBenchView *bench = LID_BENCH_VIEW (gtk_widget_get_first_child (self->board_place));

  if (self->settings != NULL)
    g_settings_set_boolean (self->settings, "before-after",
                            lid_bench_view_get_before_after (bench));
  if (self->model != NULL)
    lid_window_show_figures (self);
}

/**
 * lid_window_toggle_before_after:
 *
 * As found beside what is planned, or what is planned alone.
 */
void
lid_window_toggle_before_after (LidWindow *self)
{
  LidBenchView *bench = LID_BENCH_VIEW (gtk_widget_get_first_child (self->board_place));

  lid_bench_view_set_before_after (bench, !lid_bench_view_get_before_after (bench));
}

/**
 * lid_window_show_figures:
 *
 * The line of figures; with as found beside, also what they were.
 */
void
lid_window_show_figures (LidWindow *self)
{
  GtkWidget *bench = gtk_widget_get_first_child (self->board_place);
  gboolean compare = bench != NULL && lid_bench_view_get_before_after (LID_BENCH_VIEW (bench))
                     && lid_job_model_get_of (self->model) != LID_AS_FOUND;

  lid_figures_bar_show (self->figures, lid_job_model_get_assessment (self->model),
                        compare ? lid_job_model_get_found (self->model) : NULL,
                        lid_job_model_get_job (self->model)->board);
}

/* Power stands with capacity, the first figure: more memory draws more. */
static LidExplanation *
explain_power (guint figure, gpointer data)
{
  LidWindow *self = data;
  const LidJob *job = lid_job_model_get_job (self->model);

  return figure == 0 ? lid_explain_power (
             job->board, lid_job_model_get_of (self->model) != LID_AS_FOUND ? job->as_found : NULL,
             lid_job_model_get_population (self->model))
                     : NULL;
}

static void
make_places (LidWindow *self)
{
  GtkWidget *bench = lid_bench_view_new (), *tray = lid_module_tray_new ();

  gtk_box_append (GTK_BOX (self->board_place), bench);
  gtk_box_append (GTK_BOX (self->tray_place), tray);
  lid_figures_bar_set_more (self->figures, explain_power, self);
  lid_figures_bar_set_end (self->figures, lid_bench_view_get_switch (LID_BENCH_VIEW (bench)));
  g_signal_connect_object (bench, "taught", G_CALLBACK (taught), self, 0);
  g_signal_connect_object (bench, "planned", G_CALLBACK (lid_window_take_plan), self,
                           G_CONNECT_SWAPPED);
  if (self->settings != NULL)
    lid_bench_view_set_before_after (LID_BENCH_VIEW (bench),
                                     g_settings_get_boolean (self->settings, "before-after"));
  g_signal_connect_object (bench, "notify::before-after", G_CALLBACK (before_after_changed), self,
                           G_CONNECT_SWAPPED);
}

/* The board's own actions, for the menu and for keys that work wherever the focus is. */
static void
act_on_board (LidWindow *self, const char *action)
{
  GtkWidget *bench = gtk_widget_get_first_child (self->board_place);

  if (bench != NULL)
    gtk_widget_activate_action (GTK_WIDGET (lid_bench_view_get_board (LID_BENCH_VIEW (bench))),
                                action, NULL);
}

void
lid_window_switch_view (LidWindow *self)
{
  act_on_board (self, "board.lid-off");
}

void
lid_window_zoom_in (LidWindow *self)
{
  act_on_board (self, "board.zoom-in");
}

void
lid_window_zoom_out (LidWindow *self)
{
  act_on_board (self, "board.zoom-out");
}

void
lid_window_zoom_hand (LidWindow *self)
{
  act_on_board (self, "board.zoom-hand");
}

void
lid_window_zoom_fit (LidWindow *self)
{
  act_on_board (self, "board.zoom-fit");
}

/**
 * lid_window_show_board:
 *
 * Lays the board of the window's job out, with empty hands.
 */
void
lid_window_show_board (LidWindow *self)
{
  g_autoptr (LidHands) hands = lid_hands_new (self->model);
  LidBenchView *bench;

  if (gtk_widget_get_first_child (self->board_place) == NULL)
    make_places (self);
  bench = LID_BENCH_VIEW (gtk_widget_get_first_child (self->board_place));
  lid_bench_view_set_hands (bench, hands);
  lid_module_tray_set_hands (LID_MODULE_TRAY (gtk_widget_get_first_child (self->tray_place)),
                             hands);
  gtk_widget_grab_focus (GTK_WIDGET (lid_bench_view_get_board (bench)));
}
