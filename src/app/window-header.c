/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-header.c — what of the header fits the window, in any language and size of type. */
#include "app/window-private.h"

/* Characters of the machine's name that shall be seen; and so that the window can be made narrower
 * than what it shows. */
#define TITLE_CHARS 8

/* The width there is, before anything was laid out: a window that is maximized has its monitor's.
 */
static int
room_of (LidWindow *self)
{
  GdkSurface *surface = gtk_native_get_surface (GTK_NATIVE (self));
  GdkMonitor *monitor;
  GdkRectangle all = { 0 };
  int width, height;

  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  if (!gtk_window_is_maximized (GTK_WINDOW (self)) || surface == NULL)
    return width;
  monitor = gdk_display_get_monitor_at_surface (gdk_surface_get_display (surface), surface);
  if (monitor != NULL)
    gdk_monitor_get_geometry (monitor, &all);
  return MAX (all.width, width);
}

static void
show (LidWindow *self, gboolean undo, gboolean links)
{
  gtk_widget_set_visible (self->undo_button, undo);
  gtk_widget_set_visible (self->redo_button, undo);
  gtk_widget_set_visible (self->links, links);
}

static int
title_room (LidWindow *self)
{
  PangoContext *context = gtk_widget_get_pango_context (GTK_WIDGET (self->title));
  PangoFontMetrics *metrics = pango_context_get_metrics (context, NULL, NULL);
  int width = pango_font_metrics_get_approximate_char_width (metrics);

  pango_font_metrics_unref (metrics);
  return PANGO_PIXELS (TITLE_CHARS * width);
}

static gboolean
fits (LidWindow *self, int room)
{
  int least;

  gtk_widget_measure (gtk_window_get_titlebar (GTK_WINDOW (self)), GTK_ORIENTATION_HORIZONTAL, -1,
                      &least, NULL, NULL, NULL);
  return least + title_room (self) <= room;
}

/**
 * lid_window_fit_header:
 *
 * Undo and redo go first where the room is small, then the sheets: the menu has them all. Costs
 * nothing where neither the room nor whether there is a job has changed.
 */
void
lid_window_fit_header (LidWindow *self)
{
  gboolean job = self->model != NULL;
  int room = room_of (self);

  if (self->header_room == room && self->header_job == job)
    return;
  self->header_room = room;
  self->header_job = job;
  show (self, job, job);
  if (job && !fits (self, room))
    show (self, FALSE, TRUE);
  if (job && !fits (self, room))
    show (self, FALSE, FALSE);
}

static int
least_of (GtkWidget *widget)
{
  int least = 0;

  if (gtk_widget_get_visible (widget))
    gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  return least;
}

/**
 * lid_window_header_less:
 * @least: the least width the window says it has
 *
 * What can be hidden holds no window open: a narrower one hides it, but first it has to become
 * narrower.
 *
 * Returns: the least width it can have
 */
int
lid_window_header_less (LidWindow *self, int least)
{
  GtkWidget *child = gtk_window_get_child (GTK_WINDOW (self));
  int header = least_of (gtk_window_get_titlebar (GTK_WINDOW (self)));
  int content = child != NULL ? least_of (child) : 0, edges = least - MAX (header, content);

  header -= least_of (self->undo_button) + least_of (self->redo_button) + least_of (self->links);
  return edges + MAX (header, content);
}

void
lid_window_follow_room (LidWindow *self)
{
  g_signal_connect (self, "notify::default-width", G_CALLBACK (lid_window_fit_header), NULL);
  g_signal_connect (self, "notify::maximized", G_CALLBACK (lid_window_fit_header), NULL);
}
