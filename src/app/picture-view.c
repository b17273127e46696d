/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/picture-view.h"

#include "app/screen-theme.h"
#include "drawing/draw-board.h"

struct _LidPictureView
{
  GtkWidget parent_instance;

  LidBoard *board; /* owned reference, nullable: nothing is shown */
  LidPopulation *population;
  LidPopulation *before; /* nullable */
  LidAssessment *assessment;
  gboolean lid_off;
  LidBoardGeometry *geometry; /* nullable: to be made anew */
  int made_width, made_height;
  LidDrawText *text;
  const LidTheme *theme;
};

G_DEFINE_FINAL_TYPE (LidPictureView, lid_picture_view, GTK_TYPE_WIDGET)

static void
forget (LidPictureView *self)
{
  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  g_clear_pointer (&self->assessment, lid_assessment_free);
  g_clear_pointer (&self->population, lid_population_free);
  g_clear_pointer (&self->before, lid_population_free);
  g_clear_pointer (&self->board, lid_board_unref);
}

static const LidBoardGeometry *
get_geometry (LidPictureView *self)
{
  LidMeasure measure = lid_draw_text_measure (self->text);
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  int height = gtk_widget_get_height (GTK_WIDGET (self));
  LidBoardView view = { .lid_off = self->lid_off,
                        .width = MAX (width, 1),
                        .height = MAX (height, 1),
                        .text_scale = lid_screen_theme_text_scale (GTK_WIDGET (self)) };

  if (self->geometry != NULL && self->made_width == width && self->made_height == height)
    return self->geometry;
  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  self->geometry = lid_board_geometry_new (self->board, self->population, self->assessment,
                                           self->before, &view, &measure);
  g_array_set_size (self->geometry->notes, 0);
  self->made_width = width;
  self->made_height = height;
  return self->geometry;
}

/* A board whose slots would be too small for a hand is drawn as large as they want to be and then
 * made smaller as a whole: a picture need only be seen. */
static void
lid_picture_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  LidPictureView *self = LID_PICTURE_VIEW (widget);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget), scale;
  const LidBoardGeometry *geometry;
  graphene_rect_t bounds;
  cairo_t *cr;

  if (self->board == NULL)
    return;
  geometry = get_geometry (self);
  graphene_rect_init (&bounds, 0, 0, (float)width, (float)height);
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  scale = MIN (MIN (width / geometry->width, height / geometry->height), 1);
  cairo_translate (cr, (width - geometry->width * scale) / 2,
                   (height - geometry->height * scale) / 2);
  cairo_scale (cr, scale, scale);
  lid_draw_board_ground (cr, self->text, self->theme, geometry);
  for (guint i = 0; i < geometry->n_slots; i++)
    lid_draw_board_slot (cr, self->text, self->theme, geometry, i, LID_SLOT_PLAIN);
  cairo_destroy (cr);
}

static void
draw_anew (LidPictureView *self)
{
  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
look_changed (LidPictureView *self)
{
  self->theme = lid_screen_theme_of (GTK_WIDGET (self));
  draw_anew (self);
}

/**
 * lid_picture_view_show:
 * @board: (nullable): a board; NULL: nothing
 * @population: what sits on it
 * @before: (nullable): what sat there, so that what is new, moved and gone can be seen
 */
void
lid_picture_view_show (LidPictureView *self,
                       LidBoard *board,
                       const LidPopulation *population,
                       const LidPopulation *before)
{
  LidQuestion question = { board, population, before };

  forget (self);
  if (board != NULL)
    {
      self->board = lid_board_ref (board);
      self->population = lid_population_copy (population);
      self->before = before != NULL ? lid_population_copy (before) : NULL;
      self->assessment = lid_assessment_new_plain (&question);
    }
  draw_anew (self);
}

/**
 * lid_picture_view_shows:
 * @board: a board
 * @population: (nullable): what may sit on it
 *
 * Returns: whether just that is what the picture shows
 */
gboolean
lid_picture_view_shows (LidPictureView *self,
                        const LidBoard *board,
                        const LidPopulation *population)
{
  return population != NULL && self->population != NULL && self->board == board
         && lid_population_equal (self->population, population);
}

/**
 * lid_picture_view_set_lid_off:
 * @lid_off: whether the slots lie as on the board, where their places are known
 */
void
lid_picture_view_set_lid_off (LidPictureView *self, gboolean lid_off)
{
  self->lid_off = lid_off;
  draw_anew (self);
}

/**
 * lid_picture_view_get_assessment:
 *
 * Returns: (transfer none) (nullable): what the checker says of what is shown
 */
const LidAssessment *
lid_picture_view_get_assessment (LidPictureView *self)
{
  return self->assessment;
}

static void
lid_picture_view_finalize (GObject *object)
{
  LidPictureView *self = LID_PICTURE_VIEW (object);

  forget (self);
  lid_draw_text_free (self->text);
  G_OBJECT_CLASS (lid_picture_view_parent_class)->finalize (object);
}

static void
lid_picture_view_class_init (LidPictureViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = lid_picture_view_finalize;
  widget_class->snapshot = lid_picture_view_snapshot;
  gtk_widget_class_set_css_name (widget_class, "picture-view");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
lid_picture_view_init (LidPictureView *self)
{
  GtkWidget *widget = GTK_WIDGET (self);

  self->theme = lid_screen_theme_of (widget);
  self->text = lid_draw_text_new (self->theme);
  /* Hardware does not mirror. */
  gtk_widget_set_direction (widget, GTK_TEXT_DIR_LTR);
  lid_screen_theme_follow (widget, G_CALLBACK (look_changed));
}

GtkWidget *
lid_picture_view_new (void)
{
  return g_object_new (LID_TYPE_PICTURE_VIEW, NULL);
}
