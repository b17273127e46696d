/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "desk.h"

#include "job/job-file.h"

void
desk_settle (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

LidJob *
desk_example (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "resources", "example.lidleaf", NULL);
  g_autoptr (GError) error = NULL;
  LidJob *job = lid_job_file_load (path, &error);

  g_assert_no_error (error);
  return job;
}

void
desk_lay (Desk *desk, LidJob *job)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *bench = lid_bench_view_new (), *tray = lid_module_tray_new ();

  desk->model = lid_job_model_new (job, NULL);
  desk->hands = lid_hands_new (desk->model);
  desk->bench = LID_BENCH_VIEW (bench);
  desk->board = lid_bench_view_get_board (desk->bench);
  desk->tray = LID_MODULE_TRAY (tray);
  desk->window = g_object_ref_sink (gtk_window_new ());
  gtk_box_append (GTK_BOX (box), bench);
  gtk_box_append (GTK_BOX (box), tray);
  gtk_window_set_child (GTK_WINDOW (desk->window), box);
  gtk_window_set_default_size (GTK_WINDOW (desk->window), 1024, 700);
  lid_bench_view_set_hands (desk->bench, desk->hands);
  lid_module_tray_set_hands (desk->tray, desk->hands);
  gtk_window_present (GTK_WINDOW (desk->window));
  gtk_test_widget_wait_for_draw (desk->window);
  desk_settle ();
}

void
desk_clear (Desk *desk)
{
  gtk_window_destroy (GTK_WINDOW (desk->window));
  desk_settle ();
  g_assert_finalize_object (desk->window); /* catches circles */
  g_assert_finalize_object (desk->hands);
  g_assert_finalize_object (desk->model);
}
