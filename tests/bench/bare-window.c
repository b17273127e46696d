/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bare-window [WIDTH HEIGHT]: what any GTK 4 program costs before its first line of ours: a window
 * with one label, from the start of the process to its first frame. */
#include "first-frame.h"

static void
painted (GdkFrameClock *clock, gpointer window)
{
  g_signal_handlers_disconnect_by_func (clock, painted, window);
  first_frame_tell (window);
}

int
main (int argc, char **argv)
{
  GtkWidget *window;

  gtk_init ();
  window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (window), argc > 2 ? atoi (argv[1]) : 1280,
                               argc > 2 ? atoi (argv[2]) : 820);
  gtk_window_set_child (GTK_WINDOW (window), gtk_label_new ("bare"));
  gtk_window_present (GTK_WINDOW (window));
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (painted),
                    window);
  while (TRUE)
    g_main_context_iteration (NULL, TRUE);
}
