/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/popover-place.h"

/* Frames in which the widget may still be on its way; a board that moves on gets no menu. */
#define MOST_FRAMES 60
#define KEY "lid-popover-place"
#define LATEST "lid-popover-latest" /* of a window: the one shown or on its way there */

/* What is known of a popover on its way to its place, and there. */
typedef struct
{
  GtkWidget *room; /* borrowed, nullable: the viewport its widget is scrolled in */
  guint tick;      /* while it is on its way */
  guint frames;
  double last_x, last_y; /* the scrolling in the frame before */
  double x, y;           /* that it was shown at: belongs to at */
  GdkRectangle at;       /* what it points at, in the room, when it was shown */
  gboolean is_following; /* hears of the scrolling */
} Place;

static Place *
place_of (GtkPopover *popover)
{
  Place *place = g_object_get_data (G_OBJECT (popover), KEY);

  if (place == NULL)
    {
      place = g_new0 (Place, 1);
      g_object_set_data_full (G_OBJECT (popover), KEY, place, g_free);
    }
  return place;
}

static double
across (const Place *place)
{
  return gtk_adjustment_get_value (gtk_scrollable_get_hadjustment (GTK_SCROLLABLE (place->room)));
}

static double
down (const Place *place)
{
  return gtk_adjustment_get_value (gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (place->room)));
}

/* Scrolled away from under its menu: GTK would look for a monitor where the widget now is. */
static void
scrolled (GtkPopover *popover)
{
  Place *place = place_of (popover);
  GdkRectangle seen, now = place->at;

  if (!gtk_widget_get_visible (GTK_WIDGET (popover)))
    return;
  seen = (GdkRectangle){ 0, 0, gtk_widget_get_width (place->room),
                         gtk_widget_get_height (place->room) };
  now.x -= (int)(across (place) - place->x);
  now.y -= (int)(down (place) - place->y);
  if (!gdk_rectangle_intersect (&seen, &now, NULL))
    gtk_popover_popdown (popover);
}

static void
follow_scrolling (GtkPopover *popover, Place *place)
{
  GtkScrollable *scrollable = GTK_SCROLLABLE (place->room);

  if (place->is_following)
    return;
  place->is_following = TRUE;
  g_signal_connect_object (gtk_scrollable_get_hadjustment (scrollable), "value-changed",
                           G_CALLBACK (scrolled), popover, G_CONNECT_SWAPPED);
  g_signal_connect_object (gtk_scrollable_get_vadjustment (scrollable), "value-changed",
                           G_CALLBACK (scrolled), popover, G_CONNECT_SWAPPED);
}

/* Scrolls so far that what lies between is seen. */
static void
bring_into_view (GtkAdjustment *adjustment, double from, double size)
{
  double start = from + gtk_adjustment_get_value (adjustment);

  gtk_adjustment_clamp_page (adjustment, start,
                             start + MIN (size, gtk_adjustment_get_page_size (adjustment)));
}

/* Points at what is seen of the widget, else at the edge nearest to it. */
static void
point (GtkPopover *popover, Place *place, const graphene_rect_t *at)
{
  int width = gtk_widget_get_width (place->room), height = gtk_widget_get_height (place->room);
  int left = (int)CLAMP (at->origin.x, 0, width - 1);
  int top = (int)CLAMP (at->origin.y, 0, height - 1);
  int right = (int)CLAMP (at->origin.x + at->size.width, left + 1, MAX (width, left + 1));
  int bottom = (int)CLAMP (at->origin.y + at->size.height, top + 1, MAX (height, top + 1));

  place->at = (GdkRectangle){ left, top, right - left, bottom - top };
  place->x = place->last_x;
  place->y = place->last_y;
  gtk_popover_set_pointing_to (popover,
                               &(GdkRectangle){ left - (int)at->origin.x, top - (int)at->origin.y,
                                                right - left, bottom - top });
}

/* Brings the widget into view, and waits until a frame was laid out with what is scrolled now. */
static gboolean
is_at_rest (Place *place, const graphene_rect_t *at)
{
  GtkScrollable *scrollable = GTK_SCROLLABLE (place->room);
  gboolean rests
      = place->frames > 1 && place->last_x == across (place) && place->last_y == down (place);

  bring_into_view (gtk_scrollable_get_hadjustment (scrollable), at->origin.x, at->size.width);
  bring_into_view (gtk_scrollable_get_vadjustment (scrollable), at->origin.y, at->size.height);
  rests = rests && place->last_x == across (place) && place->last_y == down (place);
  place->last_x = across (place);
  place->last_y = down (place);
  return rests;
}

/* On its way no longer, there or not; who waits for its end hears of it. */
static void
give_up (GtkPopover *popover)
{
  place_of (popover)->tick = 0;
  if (!gtk_widget_get_visible (GTK_WIDGET (popover)))
    g_signal_emit_by_name (popover, "closed");
}

static gboolean
frame_came (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  GtkPopover *popover = data;
  Place *place = place_of (popover);
  graphene_rect_t at;

  place->frames++;
  if (gtk_widget_get_parent (GTK_WIDGET (popover)) != widget || place->frames > MOST_FRAMES)
    {
      give_up (popover);
      return G_SOURCE_REMOVE; /* it was taken away meanwhile, or the board does not come to rest */
    }
  if (place->room != NULL && gtk_widget_compute_bounds (widget, place->room, &at))
    {
      if (!is_at_rest (place, &at))
        return G_SOURCE_CONTINUE;
      point (popover, place, &at);
      follow_scrolling (popover, place);
    }
  place->tick = 0;
  gtk_popover_popup (popover);
  return G_SOURCE_REMOVE;
}

static void
free_latest (gpointer latest)
{
  g_weak_ref_clear (latest);
  g_free (latest);
}

/* Shown or on its way: no longer. */
static void
stop (GtkPopover *popover)
{
  GtkWidget *widget = gtk_widget_get_parent (GTK_WIDGET (popover));
  guint tick = place_of (popover)->tick;

  if (gtk_widget_get_visible (GTK_WIDGET (popover)))
    gtk_popover_popdown (popover);
  if (tick == 0)
    return;
  give_up (popover);
  if (widget != NULL)
    gtk_widget_remove_tick_callback (widget, tick);
}

/* Two on their way would scroll the board from under each other, and the first lose its monitor. */
static void
replace_latest (GtkWidget *widget, GtkPopover *popover)
{
  GObject *root = (GObject *)gtk_widget_get_root (widget);
  GWeakRef *latest = root != NULL ? g_object_get_data (root, LATEST) : NULL;
  g_autoptr (GtkPopover) before = NULL;

  if (root == NULL)
    return;
  if (latest == NULL)
    {
      latest = g_new0 (GWeakRef, 1);
      g_weak_ref_init (latest, NULL);
      g_object_set_data_full (root, LATEST, latest, free_latest);
    }
  before = g_weak_ref_get (latest);
  g_weak_ref_set (latest, popover);
  if (before != NULL && before != popover && !gtk_widget_is_ancestor (widget, GTK_WIDGET (before)))
    stop (before);
}

/**
 * lid_popover_place_show:
 * @popover: the menu of its parent, which is in a window
 *
 * A screen reader may ask for the menu of a slot that is scrolled away: GTK 4.8 would put it
 * outside of every screen and log a critical, for it finds no monitor there. So the widget comes
 * into view first, and the menu is shown in the frame after. When the widget is scrolled away
 * later, its menu closes; so does the one that was shown like this before.
 */
void
lid_popover_place_show (GtkPopover *popover)
{
  GtkWidget *widget = gtk_widget_get_parent (GTK_WIDGET (popover));
  Place *place = place_of (popover);

  replace_latest (widget, popover);
  stop (popover);
  place->frames = 0;
  place->room = gtk_widget_get_ancestor (widget, GTK_TYPE_VIEWPORT);
  place->tick
      = gtk_widget_add_tick_callback (widget, frame_came, g_object_ref (popover), g_object_unref);
}

static gboolean
leave (gpointer data)
{
  GtkWidget *popover = data;

  if (gtk_widget_get_parent (popover) != NULL && !gtk_widget_get_visible (popover)
      && place_of (GTK_POPOVER (popover))->tick == 0)
    gtk_widget_unparent (popover);
  return G_SOURCE_REMOVE;
}

/**
 * lid_popover_place_leave:
 * @popover: was closed, and is not to be shown again
 *
 * Takes it from its parent, for "closed" to be connected to. Not from inside the signal: GTK is
 * still closing it. But before the screen is heard again: it may say that the pointer came into
 * what is closed already. GTK 4.8 then holds the pointer to be there, and when that is taken away
 * afterwards, the next layout of the window asks a surface that is no more: the program ends.
 */
void
lid_popover_place_leave (GtkPopover *popover)
{
  g_idle_add_full (G_PRIORITY_HIGH, leave, g_object_ref (popover), g_object_unref);
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

/**
 * lid_popover_place_close_latest:
 * @widget: part of a window whose boards are about to lie elsewhere
 *
 * GTK shows a popover anew while it still lays out the room around the board: what it points at may
 * then lie outside of every screen, though the board has its room again in the same frame.
 */
void
lid_popover_place_close_latest (GtkWidget *widget)
{
  GObject *root = (GObject *)gtk_widget_get_root (widget);
  GWeakRef *latest = root != NULL ? g_object_get_data (root, LATEST) : NULL;
  g_autoptr (GtkPopover) popover = latest != NULL ? g_weak_ref_get (latest) : NULL;

  if (popover != NULL && gtk_widget_get_visible (GTK_WIDGET (popover)))
    gtk_popover_popdown (popover);
}

/* Its widget went out of sight, for it closes in sight otherwise. */
static gboolean
unmapped (GSignalInvocationHint *hint, guint n, const GValue *values, gpointer data)
{
  GObject *widget = g_value_get_object (&values[0]);

  if (GTK_IS_POPOVER (widget) && gtk_widget_get_visible (GTK_WIDGET (widget)))
    gtk_popover_popdown (GTK_POPOVER (widget));
  return TRUE;
}

/**
 * lid_popover_place_install:
 *
 * From now on, whatever a widget shows over the window closes when the widget goes out of sight.
 * GTK 4.8 closes it some frames later; where the widget is back before, as a figure that is missing
 * for one population, it would be shown again where nobody asked for it.
 */
void
lid_popover_place_install (void)
{
  g_autoptr (GTypeClass) klass = g_type_class_ref (GTK_TYPE_WIDGET); /* has its signals from then */

  g_signal_add_emission_hook (g_signal_lookup ("unmap", G_TYPE_FROM_CLASS (klass)), 0, unmapped,
                              NULL, NULL);
}
