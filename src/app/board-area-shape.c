/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-area-shape.c — how large the board is, where its slots lie, and in which ink. */
#include "app/board-area-private.h"

#include "app/popover-place.h"
#include "app/screen-theme.h"

#include <math.h>

/* The room there is: the scrolled window's, not the drawing's. */
void
lid_board_area_view_size (LidBoardArea *self, double *width, double *height)
{
  GtkWidget *parent = gtk_widget_get_parent (GTK_WIDGET (self));
  GtkWidget *room = GTK_IS_VIEWPORT (parent) ? parent : GTK_WIDGET (self);

  *width = MAX (gtk_widget_get_width (room), 1);
  *height = MAX (gtk_widget_get_height (room), 1);
}

/**
 * lid_board_area_make_geometry:
 * @like: (nullable): the one before the edit
 */
LidBoardGeometry *
lid_board_area_make_geometry (
    LidBoardArea *self, const LidBoardGeometry *like, double width, double height, double zoom)
{
  LidJobModel *model = lid_hands_get_model (self->hands);
  const LidJob *job = lid_edits_job (lid_job_model_get_edits (model));
  LidMeasure measure = lid_draw_text_measure (self->text);
  LidBoardView view = { .lid_off = self->lid_off,
                        .width = width,
                        .height = height,
                        .zoom = zoom,
                        .text_scale = lid_screen_theme_text_scale (GTK_WIDGET (self)) };

  if (like != NULL)
    return lid_board_geometry_again (like, lid_board_area_get_population (self),
                                     lid_job_model_get_assessment (model),
                                     self->changes != NULL ? job->as_found : NULL, &view, &measure);
  return lid_board_geometry_new (job->board, lid_board_area_get_population (self),
                                 lid_job_model_get_assessment (model),
                                 self->changes != NULL ? job->as_found : NULL, &view, &measure);
}

void
lid_board_area_remake_geometry (LidBoardArea *self, const LidBoardGeometry *like)
{
  double width, height;

  lid_board_area_view_size (self, &width, &height);
  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  self->geometry = lid_board_area_make_geometry (self, like, width, height, self->zoom);
  self->made_width = width;
  self->made_height = height;
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

  lid_board_area_view_size (self, &width, &height);
  if (self->geometry != NULL && self->made_width == width && self->made_height == height)
    return self->geometry;
  lid_board_area_remake_geometry (self, NULL);
  lid_board_ground_clear (self->ground);
  self->stale = TRUE;
  return self->geometry;
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
  lid_board_area_view_size (self, &width, &height);
  if (width <= 1 || height <= 1)
    return;
  geometry = lid_board_area_get_geometry (self);
  size = orientation == GTK_ORIENTATION_HORIZONTAL ? geometry->width : geometry->height;
  room = orientation == GTK_ORIENTATION_HORIZONTAL ? width : height;
  if (size > room + 0.5)
    *minimum = *natural = (int)ceil (size);
}

/**
 * lid_board_area_allocate_child:
 *
 * Also where it lies already: GTK may want it laid out again for reasons of its own (a drag over
 * it, a popover gone), and draws nothing of it before. For one that needs nothing this is quick.
 */
void
lid_board_area_allocate_child (GtkWidget *child, LidBox box)
{
  GtkAllocation at = { .x = (int)floor (box.x),
                       .y = (int)floor (box.y),
                       .width = MAX ((int)ceil (box.width), 1),
                       .height = MAX ((int)ceil (box.height), 1) };
  GtkAllocation was;
  int minimum, natural;

  gtk_widget_get_allocation (child, &was);
  if (!gdk_rectangle_equal (&was, &at))
    lid_popover_place_close (child);
  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, &natural, NULL, NULL);
  gtk_widget_size_allocate (child, &at, -1);
}

static void
lid_board_area_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  LidBoardArea *self = LID_BOARD_AREA (widget);
  const LidBoardGeometry *geometry;

  if (self->hands == NULL)
    return;
  geometry = lid_board_area_get_geometry (self);
  if (self->stale)
    lid_board_area_repaint_all (self);
  self->stale = FALSE;
  for (guint i = 0; i < self->slots->len; i++)
    lid_board_area_allocate_child (self->slots->pdata[i], geometry->slots[i].hit);
  lid_board_area_allocate_notes (self);
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

static void
lid_board_area_map (GtkWidget *widget)
{
  gtk_widget_queue_allocate (widget);
  GTK_WIDGET_CLASS (g_type_class_peek (GTK_TYPE_WIDGET))->map (widget);
}

void
lid_board_area_class_init_shape (GtkWidgetClass *klass)
{
  klass->map = lid_board_area_map;
  klass->measure = lid_board_area_measure;
  klass->size_allocate = lid_board_area_size_allocate;
}

void
lid_board_area_init_shape (LidBoardArea *self)
{
  GtkWidget *widget = GTK_WIDGET (self);

  lid_screen_theme_follow (widget, G_CALLBACK (retheme));
  retheme (self);
}
