/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/popover-place.h"

/* Frames in which the widget may still be on its way; a board that moves on gets no menu. */
#define MOST_FRAMES 60

static GtkWidget *
room_of (GtkPopover *popover)
{
  return gtk_widget_get_ancestor (GTK_WIDGET (popover), GTK_TYPE_VIEWPORT);
}

/* Where a part of the menu's widget lies in what is scrolled: a scroll is seen in it at once, in
 * the allocation only a frame later. */
static gboolean
place_in_room (GtkPopover *popover, GtkWidget *room, GdkRectangle part, graphene_rect_t *at)
{
  GtkWidget *widget = gtk_widget_get_parent (GTK_WIDGET (popover));
  GtkWidget *child = gtk_viewport_get_child (GTK_VIEWPORT (room));
  GtkScrollable *scrollable = GTK_SCROLLABLE (room);
  double x, y;

  if (!gtk_widget_translate_coordinates (widget, child, part.x, part.y, &x, &y))
    return FALSE;
  x -= gtk_adjustment_get_value (gtk_scrollable_get_hadjustment (scrollable));
  y -= gtk_adjustment_get_value (gtk_scrollable_get_vadjustment (scrollable));
  graphene_rect_init (at, (float)x, (float)y, (float)part.width, (float)part.height);
  return TRUE;
}

static GdkRectangle
whole (GtkWidget *widget)
{
  return (GdkRectangle){ 0, 0, gtk_widget_get_width (widget), gtk_widget_get_height (widget) };
}

/* Scrolled away from under its menu: GTK would look for a monitor where the widget now is. */
static void
scrolled (GtkPopover *popover)
{
  GtkWidget *room = room_of (popover);
  graphene_rect_t at, seen;
  GdkRectangle part;

  if (room == NULL || !gtk_widget_get_visible (GTK_WIDGET (popover))
      || !gtk_popover_get_pointing_to (popover, &part))
    return;
  graphene_rect_init (&seen, 0, 0, (float)gtk_widget_get_width (room),
                      (float)gtk_widget_get_height (room));
  if (!place_in_room (popover, room, part, &at) || !graphene_rect_intersection (&seen, &at, NULL))
    gtk_popover_popdown (popover);
}

static void
follow_scrolling (GtkPopover *popover, GtkWidget *room)
{
  static const char key[] = "lid-popover-place";
  GtkScrollable *scrollable = GTK_SCROLLABLE (room);

  if (g_object_get_data (G_OBJECT (popover), key) == room)
    return;
  g_object_set_data (G_OBJECT (popover), key, room);
  g_signal_connect_object (gtk_scrollable_get_hadjustment (scrollable), "value-changed",
                           G_CALLBACK (scrolled), popover, G_CONNECT_SWAPPED);
  g_signal_connect_object (gtk_scrollable_get_vadjustment (scrollable), "value-changed",
                           G_CALLBACK (scrolled), popover, G_CONNECT_SWAPPED);
}

/* Scrolls so far that the widget is seen; whether it had to. */
static gboolean
bring_into_view (GtkAdjustment *adjustment, double from, double size)
{
  double before = gtk_adjustment_get_value (adjustment);
  double start = from + before;

  gtk_adjustment_clamp_page (adjustment, start,
                             start + MIN (size, gtk_adjustment_get_page_size (adjustment)));
  return gtk_adjustment_get_value (adjustment) != before;
}

/* Points at what is seen of the widget, else at the edge nearest to it. */
static void
point (GtkPopover *popover, GtkWidget *room, const graphene_rect_t *at)
{
  double left = CLAMP (at->origin.x, 0, gtk_widget_get_width (room) - 1);
  double top = CLAMP (at->origin.y, 0, gtk_widget_get_height (room) - 1);
  double right = CLAMP (at->origin.x + at->size.width, left + 1,
                        MAX (gtk_widget_get_width (room), left + 1));
  double bottom = CLAMP (at->origin.y + at->size.height, top + 1,
                         MAX (gtk_widget_get_height (room), top + 1));

  gtk_popover_set_pointing_to (
      popover, &(GdkRectangle){ (int)(left - at->origin.x), (int)(top - at->origin.y),
                                (int)(right - left), (int)(bottom - top) });
}

/* Whether the frames have caught up with the scrolling. */
static gboolean
is_allocated (GtkWidget *widget, GtkWidget *room, const graphene_rect_t *at)
{
  graphene_rect_t now;

  return gtk_widget_compute_bounds (widget, room, &now)
         && graphene_point_near (&now.origin, &at->origin, 1.5f);
}

static gboolean
frame_came (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  GtkPopover *popover = data;
  GtkWidget *room = room_of (popover);
  guint frames = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (popover), "lid-frames")) + 1;
  graphene_rect_t at;
  gboolean moves = FALSE;

  if (gtk_widget_get_parent (GTK_WIDGET (popover)) != widget)
    return G_SOURCE_REMOVE; /* it was taken away meanwhile */
  g_object_set_data (G_OBJECT (popover), "lid-frames", GUINT_TO_POINTER (frames));
  if (room != NULL && place_in_room (popover, room, whole (widget), &at))
    {
      GtkScrollable *scrollable = GTK_SCROLLABLE (room);

      moves = bring_into_view (gtk_scrollable_get_hadjustment (scrollable), at.origin.x,
                               at.size.width);
      moves = bring_into_view (gtk_scrollable_get_vadjustment (scrollable), at.origin.y,
                               at.size.height)
              || moves || !is_allocated (widget, room, &at);
      if (moves)
        return frames < MOST_FRAMES ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
      point (popover, room, &at);
      follow_scrolling (popover, room);
    }
  gtk_popover_popup (popover);
  return G_SOURCE_REMOVE;
}

/**
 * lid_popover_place_show:
 * @popover: the menu of its parent
 *
 * A screen reader may ask for the menu of a slot that is scrolled away: GTK 4.8 would put it
 * outside of every screen and log a critical, for it finds no monitor there. So the widget comes
 * into view first, and the menu is shown in the frame after. When the widget is scrolled away
 * later, its menu closes.
 */
void
lid_popover_place_show (GtkPopover *popover)
{
  GtkWidget *widget = gtk_widget_get_parent (GTK_WIDGET (popover));

  g_object_set_data (G_OBJECT (popover), "lid-frames", NULL);
  gtk_widget_add_tick_callback (widget, frame_came, g_object_ref (popover), g_object_unref);
}

/**
 * lid_popover_place_close:
 * @widget: is about to lie elsewhere
 *
 * Whatever it shows over the window closes: it would stay behind, or leave the screen.
 */
void
lid_popover_place_close (GtkWidget *widget)
{
  GtkWidget *next;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = next)
    {
      next = gtk_widget_get_next_sibling (child);
      if (GTK_IS_POPOVER (child) && gtk_widget_get_visible (child))
        gtk_popover_popdown (GTK_POPOVER (child));
    }
}
