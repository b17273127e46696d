/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-area-zoom.c — nearer and farther, by key, wheel, pinch and click. */
#include "app/board-area-private.h"

#include <string.h>

#define MOST_ZOOM 4.0
#define STEP 1.25
/* A fitted slot smaller than this is not hit with certainty: a click zooms in first. At 100 % it is
 * LID_BOARD_CELL; a mouse hits less than a glove, and every zoom costs a click. */
#define LEAST_HIT 30.0

double
lid_board_area_get_zoom (LidBoardArea *self)
{
  return self->zoom;
}

/* What lay under the pointer, or in the middle, lies there again. */
typedef struct
{
  LidBoardArea *area;
  double x, y;           /* share of the drawing */
  double view_x, view_y; /* where it shall lie in the room, px */
} Anchor;

static void
anchor_free (gpointer data)
{
  Anchor *anchor = data;

  g_object_unref (anchor->area);
  g_free (anchor);
}

static void
scroll (GtkAdjustment *adjustment, double value)
{
  if (adjustment != NULL)
    gtk_adjustment_set_value (adjustment, value);
}

static gboolean
put_anchor (gpointer data)
{
  Anchor *anchor = data;
  GtkWidget *widget = GTK_WIDGET (anchor->area), *parent = gtk_widget_get_parent (widget);

  if (GTK_IS_SCROLLABLE (parent))
    {
      scroll (gtk_scrollable_get_hadjustment (GTK_SCROLLABLE (parent)),
              anchor->x * gtk_widget_get_width (widget) - anchor->view_x);
      scroll (gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (parent)),
              anchor->y * gtk_widget_get_height (widget) - anchor->view_y);
    }
  return G_SOURCE_REMOVE;
}

static void
zoom_about (LidBoardArea *self, double zoom, double x, double y, gboolean centre)
{
  GtkWidget *widget = GTK_WIDGET (self), *parent = gtk_widget_get_parent (widget);
  Anchor *anchor = g_new0 (Anchor, 1);
  double width, height, at_x = x, at_y = y;

  lid_board_area_view_size (self, &width, &height);
  if (parent != NULL)
    gtk_widget_translate_coordinates (widget, parent, x, y, &at_x, &at_y);
  anchor->area = g_object_ref (self);
  anchor->x = x / MAX (gtk_widget_get_width (widget), 1);
  anchor->y = y / MAX (gtk_widget_get_height (widget), 1);
  anchor->view_x = centre ? width / 2 : at_x;
  anchor->view_y = centre ? height / 2 : at_y;
  lid_board_area_set_zoom (self, zoom);
  /* After the sizes of this frame are settled, before it is drawn or right after. */
  g_idle_add_full (GDK_PRIORITY_REDRAW + 1, put_anchor, anchor, anchor_free);
}

/**
 * lid_board_area_set_zoom:
 * @zoom: 1: a slot is as high as a gloved hand needs; 0: as large as fits
 *
 * Smaller than what fits there is nothing to see, so that counts as 0.
 */
void
lid_board_area_set_zoom (LidBoardArea *self, double zoom)
{
  double width, height;

  if (self->hands != NULL && zoom > 0)
    {
      g_autoptr (LidBoardGeometry) fitted = NULL;

      lid_board_area_view_size (self, &width, &height);
      fitted = lid_board_area_make_geometry (self, NULL, width, height, 0);
      zoom = zoom <= fitted->zoom * 1.001 ? 0 : MIN (zoom, MOST_ZOOM);
    }
  if (self->zoom == zoom)
    return;
  self->zoom = zoom;
  lid_board_area_reshape (self);
}

/**
 * lid_board_area_come_closer:
 * @slot: a slot that was clicked
 *
 * Returns: whether the board was fitted so small that the click only zoomed in
 */
gboolean
lid_board_area_come_closer (LidBoardArea *self, guint slot)
{
  const LidBox *box = &lid_board_area_get_geometry (self)->slots[slot].hit;

  if (self->zoom > 0 || MIN (box->width, box->height) >= LEAST_HIT)
    return FALSE;
  zoom_about (self, 1, box->x + box->width / 2, box->y + box->height / 2, TRUE);
  return TRUE;
}

static void
zoom_by (LidBoardArea *self, double factor, double x, double y, gboolean centre)
{
  if (self->hands != NULL)
    zoom_about (self, lid_board_area_get_geometry (self)->zoom * factor, x, y, centre);
}

static void
zoom_action (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidBoardArea *self = LID_BOARD_AREA (widget);
  GtkWidget *parent = gtk_widget_get_parent (widget);
  double width, height, x = 0, y = 0;

  if (strcmp (action, "board.zoom-fit") == 0)
    {
      lid_board_area_set_zoom (self, 0);
      return;
    }
  lid_board_area_view_size (self, &width, &height);
  if (parent != NULL)
    gtk_widget_translate_coordinates (parent, widget, width / 2, height / 2, &x, &y);
  if (strcmp (action, "board.zoom-hand") == 0)
    zoom_about (self, 1, x, y, TRUE);
  else
    zoom_by (self, strcmp (action, "board.zoom-in") == 0 ? STEP : 1 / STEP, x, y, TRUE);
}

static gboolean
scrolled (GtkEventControllerScroll *controller, double dx, double dy, LidBoardArea *self)
{
  GtkEventController *base = GTK_EVENT_CONTROLLER (controller);
  GdkEvent *event = gtk_event_controller_get_current_event (base);
  double x = gtk_widget_get_width (GTK_WIDGET (self)) / 2.0;
  double y = gtk_widget_get_height (GTK_WIDGET (self)) / 2.0;
  graphene_point_t here;

  if (!(gtk_event_controller_get_current_event_state (base) & GDK_CONTROL_MASK) || dy == 0)
    return GDK_EVENT_PROPAGATE; /* a plain wheel scrolls */
  if (event != NULL && gdk_event_get_position (event, &x, &y))
    {
      GtkNative *native = gtk_widget_get_native (GTK_WIDGET (self));
      double off_x, off_y;

      gtk_native_get_surface_transform (native, &off_x, &off_y);
      if (gtk_widget_compute_point (GTK_WIDGET (native), GTK_WIDGET (self),
                                    &GRAPHENE_POINT_INIT ((float)(x - off_x), (float)(y - off_y)),
                                    &here))
        {
          x = here.x;
          y = here.y;
        }
    }
  zoom_by (self, dy < 0 ? STEP : 1 / STEP, x, y, FALSE);
  return GDK_EVENT_STOP;
}

static void
pinch_began (GtkGesture *gesture, GdkEventSequence *sequence, LidBoardArea *self)
{
  self->pinch_from = self->hands != NULL ? lid_board_area_get_geometry (self)->zoom : 1;
}

static void
pinched (GtkGestureZoom *gesture, double scale, LidBoardArea *self)
{
  double x, y;

  if (!gtk_gesture_is_active (GTK_GESTURE (gesture))
      || !gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &x, &y))
    {
      x = gtk_widget_get_width (GTK_WIDGET (self)) / 2.0;
      y = gtk_widget_get_height (GTK_WIDGET (self)) / 2.0;
    }
  if (self->hands != NULL)
    zoom_about (self, (self->pinch_from > 0 ? self->pinch_from : 1) * scale, x, y, FALSE);
}

void
lid_board_area_class_init_zoom (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "board.zoom-in", NULL, zoom_action);
  gtk_widget_class_install_action (klass, "board.zoom-out", NULL, zoom_action);
  gtk_widget_class_install_action (klass, "board.zoom-fit", NULL, zoom_action);
  gtk_widget_class_install_action (klass, "board.zoom-hand", NULL, zoom_action);
}

void
lid_board_area_init_zoom (LidBoardArea *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkEventController *wheel
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
  GtkGesture *pinch = gtk_gesture_zoom_new ();

  g_signal_connect (wheel, "scroll", G_CALLBACK (scrolled), self);
  gtk_widget_add_controller (widget, wheel);
  g_signal_connect (pinch, "begin", G_CALLBACK (pinch_began), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (pinched), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));
  lid_board_area_init_pan (self);
}
