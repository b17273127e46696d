/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-board.c — the board, the tray and the hands between them, for the job of a window. */
#include "app/bench-view.h"
#include "app/module-tray.h"
#include "app/window-private.h"

/* The same machine on a board whose channels are told: it takes the place of the job shown. */
static void
taught (LidBenchView *bench, LidWindow *self)
{
  LidJob *job = lid_teach_view_take_job (lid_bench_view_get_teach_view (bench));

  if (job == NULL)
    return;
  lid_window_take_job (self, job, lid_window_load_parts (self));
  lid_edits_mark_unsaved (lid_job_model_get_edits (self->model));
  lid_job_model_edited (self->model);
}

static void
make_places (LidWindow *self)
{
  GtkWidget *bench = lid_bench_view_new (), *tray = lid_module_tray_new ();

  gtk_box_append (GTK_BOX (self->board_place), bench);
  gtk_box_append (GTK_BOX (self->tray_place), tray);
  g_signal_connect_object (bench, "taught", G_CALLBACK (taught), self, 0);
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
