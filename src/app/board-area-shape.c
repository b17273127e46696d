/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-area-shape.c — how large the board is, where its children lie, and in which ink. */
#include "app/board-area-private.h"

#include "app/note-button.h"
#include "app/screen-theme.h"

#include <math.h>
#include <string.h>

#define MOST_ZOOM 4.0
#define STEP 1.25
#define LEAST_HIT                                                                                  \
  24.0 /* a fitted slot thinner than this is not hit with certainty: zoom in first */

/* The room there is: the scrolled window's, not the drawing's. */
static void
view_size (LidBoardArea *self, double *width, double *height)
{
  GtkWidget *parent = gtk_widget_get_parent (GTK_WIDGET (self));
  GtkWidget *room = GTK_IS_VIEWPORT (parent) ? parent : GTK_WIDGET (self);

  *width = MAX (gtk_widget_get_width (room), 1);
  *height = MAX (gtk_widget_get_height (room), 1);
}

static LidBoardGeometry *
make_geometry (LidBoardArea *self, double width, double height, double zoom)
{
  LidJobModel *model = lid_hands_get_model (self->hands);
  const LidJob *job = lid_edits_job (lid_job_model_get_edits (model));
  LidMeasure measure = lid_draw_text_measure (self->text);
  LidBoardView view = { .lid_off = self->lid_off,
                        .width = width,
                        .height = height,
                        .zoom = zoom,
                        .text_scale = lid_screen_theme_text_scale (GTK_WIDGET (self)) };

  return lid_board_geometry_new (job->board, lid_board_area_get_population (self),
                                 lid_job_model_get_assessment (model),
                                 self->changes != NULL ? job->as_found : NULL, &view, &measure);
}

/**
 * lid_board_area_get_geometry:
 *
 * Returns: (transfer none): where everything lies; good until the next edit or change of size
 */
const LidBoardGeometry *
lid_board_area_get_geometry (LidBoardArea *self)
{
  double width, height;

  view_size (self, &width, &height);
  if (self->geometry != NULL && self->made_width == width && self->made_height == height)
    return self->geometry;
  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  self->geometry = make_geometry (self, width, height, self->zoom);
  self->made_width = width;
  self->made_height = height;
  return self->geometry;
}

/* Another zoom, view or type: sizes have to be asked for again. */
void
lid_board_area_reshape (LidBoardArea *self)
{
  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
  for (guint i = 0; i < self->slots->len; i++)
    gtk_widget_queue_draw (self->slots->pdata[i]);
}

static void
lid_board_area_measure (GtkWidget *widget,
                        GtkOrientation orientation,
                        int for_size,
                        int *minimum,
                        int *natural,
                        int *minimum_baseline,
                        int *natural_baseline)
{
  LidBoardArea *self = LID_BOARD_AREA (widget);
  const LidBoardGeometry *geometry;
  double width, height, size, room;

  *minimum = *natural = 1;
  if (self->hands == NULL || !GTK_IS_VIEWPORT (gtk_widget_get_parent (widget)))
    return;
  view_size (self, &width, &height);
  if (width <= 1 || height <= 1)
    return;
  geometry = lid_board_area_get_geometry (self);
  size = orientation == GTK_ORIENTATION_HORIZONTAL ? geometry->width : geometry->height;
  room = orientation == GTK_ORIENTATION_HORIZONTAL ? width : height;
  if (size > room + 0.5)
    *minimum = *natural = (int)ceil (size);
}

static void
allocate_child (GtkWidget *child, LidBox box)
{
  GtkAllocation at = { .x = (int)floor (box.x),
                       .y = (int)floor (box.y),
                       .width = MAX ((int)ceil (box.width), 1),
                       .height = MAX ((int)ceil (box.height), 1) };
  GtkAllocation was;
  int minimum, natural;

  gtk_widget_get_allocation (child, &was);
  if (LID_IS_SLOT_BUTTON (child) && !gdk_rectangle_equal (&was, &at))
    lid_slot_button_close_menu (LID_SLOT_BUTTON (child));
  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, &natural, NULL, NULL);
  gtk_widget_size_allocate (child, &at, -1);
}

static const LidBoardNote *
note_of (const LidBoardGeometry *geometry, const LidFinding *finding)
{
  for (guint i = 0; i < geometry->notes->len; i++)
    if (lid_board_geometry_note (geometry, i)->finding == finding)
      return lid_board_geometry_note (geometry, i);
  return NULL;
}

static void
lid_board_area_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  LidBoardArea *self = LID_BOARD_AREA (widget);
  const LidBoardGeometry *geometry;

  if (self->hands == NULL)
    return;
  geometry = lid_board_area_get_geometry (self);
  for (guint i = 0; i < self->slots->len; i++)
    allocate_child (self->slots->pdata[i], geometry->slots[i].hit);
  for (guint i = 0; i < self->notes->len; i++)
    {
      GtkWidget *button = self->notes->pdata[i];
      const LidBoardNote *note
          = note_of (geometry, lid_note_button_get_finding (LID_NOTE_BUTTON (button)));

      gtk_widget_set_child_visible (button, note != NULL);
      if (note != NULL)
        allocate_child (button, note->box);
    }
}

/* One widget a finding, folded ones too: a screen reader hears them all. */
void
lid_board_area_place_notes (LidBoardArea *self)
{
  const LidAssessment *assessment
      = lid_job_model_get_assessment (lid_hands_get_model (self->hands));
  guint n = assessment != NULL ? assessment->findings->len : 0;

  while (self->notes->len > n)
    {
      gtk_widget_unparent (self->notes->pdata[self->notes->len - 1]);
      g_ptr_array_set_size (self->notes, (int)self->notes->len - 1);
    }
  while (self->notes->len < n)
    {
      GtkWidget *note = lid_note_button_new (self);

      gtk_widget_set_parent (note, GTK_WIDGET (self));
      g_ptr_array_add (self->notes, note);
    }
  for (guint i = 0; i < n; i++)
    lid_note_button_show (self->notes->pdata[i], i);
}

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

  view_size (self, &width, &height);
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

      view_size (self, &width, &height);
      fitted = make_geometry (self, width, height, 0);
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
  view_size (self, &width, &height);
  if (parent != NULL)
    gtk_widget_translate_coordinates (parent, widget, width / 2, height / 2, &x, &y);
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

/* Dark, contrast or type changed on the desktop. */
static void
retheme (LidBoardArea *self)
{
  const LidTheme *theme = lid_screen_theme_of (GTK_WIDGET (self));

  if (self->theme != theme || self->text == NULL)
    {
      self->theme = theme;
      g_clear_pointer (&self->text, lid_draw_text_free);
      self->text = lid_draw_text_new (theme);
    }
  lid_board_area_reshape (self);
}

void
lid_board_area_class_init_shape (GtkWidgetClass *klass)
{
  klass->measure = lid_board_area_measure;
  klass->size_allocate = lid_board_area_size_allocate;
  gtk_widget_class_install_action (klass, "board.zoom-in", NULL, zoom_action);
  gtk_widget_class_install_action (klass, "board.zoom-out", NULL, zoom_action);
  gtk_widget_class_install_action (klass, "board.zoom-fit", NULL, zoom_action);
}

void
lid_board_area_init_shape (LidBoardArea *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkEventController *wheel
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
  GtkGesture *pinch = gtk_gesture_zoom_new ();
  lid_screen_theme_follow (widget, G_CALLBACK (retheme));
  g_signal_connect (wheel, "scroll", G_CALLBACK (scrolled), self);
  gtk_widget_add_controller (widget, wheel);
  g_signal_connect (pinch, "begin", G_CALLBACK (pinch_began), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (pinched), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));
  retheme (self);
}
