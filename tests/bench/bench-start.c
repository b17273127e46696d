/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bench-start JOB: the program itself, from the start of the process to the first frame that shows
 * the slots of the job. */
#include "app/application.h"
#include "app/window.h"
#include "first-frame.h"

#include <locale.h>

/* A slot that lies somewhere on the screen: the board is laid out. */
static gboolean
shows_slots (GtkWidget *widget)
{
  if (g_str_equal (G_OBJECT_TYPE_NAME (widget), "LidSlotButton"))
    return gtk_widget_get_mapped (widget) && gtk_widget_get_width (widget) > 1;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (shows_slots (child))
      return TRUE;
  return FALSE;
}

static void
painted (GdkFrameClock *clock, gpointer window)
{
  if (!shows_slots (window))
    return;
  g_signal_handlers_disconnect_by_func (clock, painted, window);
  first_frame_tell (window);
}

static void
realized (GtkWidget *window, gpointer data)
{
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (painted),
                    window);
}

static void
window_added (GtkApplication *application, GtkWindow *window, gpointer data)
{
  g_signal_connect (window, "realize", G_CALLBACK (realized), NULL);
}

int
main (int argc, char **argv)
{
  g_autoptr (GtkApplication) application = NULL;

  setlocale (LC_ALL, "");
  application = lid_application_new ();
  g_signal_connect (application, "window-added", G_CALLBACK (window_added), NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
