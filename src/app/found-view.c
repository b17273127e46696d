/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/found-view.h"

#include "app/screen-theme.h"
#include "drawing/draw-board.h"
#include "drawing/figures-line.h"

#include <glib/gi18n.h>

#define MOST_SAID 48u /* slots read aloud; of more, their number */

struct _LidFoundView
{
  GtkWidget parent_instance;

  LidJobModel *model; /* owned, nullable */
  LidDrawText *text;
  const LidTheme *theme;
  gboolean lid_off;
  LidBoardGeometry *geometry; /* nullable: to be made anew */
  int made_width, made_height;
};

G_DEFINE_FINAL_TYPE (LidFoundView, lid_found_view, GTK_TYPE_WIDGET)

static const LidBoardGeometry *
get_geometry (LidFoundView *self)
{
  const LidJob *job = lid_job_model_get_job (self->model);
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
  self->geometry = lid_board_geometry_new (
      job->board, job->as_found, lid_job_model_get_found (self->model), NULL, &view, &measure);
  g_array_set_size (self->geometry->notes, 0);
  self->made_width = width;
  self->made_height = height;
  return self->geometry;
}

static gboolean
has_found (LidFoundView *self)
{
  return self->model != NULL && lid_job_model_get_job (self->model)->as_found != NULL;
}

static void
lid_found_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  LidFoundView *self = LID_FOUND_VIEW (widget);
  const LidBoardGeometry *geometry;
  graphene_rect_t bounds;
  double scale;
  cairo_t *cr;

  if (!has_found (self))
    return;
  geometry = get_geometry (self);
  graphene_rect_init (&bounds, 0, 0, (float)gtk_widget_get_width (widget),
                      (float)gtk_widget_get_height (widget));
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  /* The board beside it scrolls where it is too small to be hit; a picture need only be seen. */
  scale = MIN (gtk_widget_get_width (widget) / geometry->width,
               gtk_widget_get_height (widget) / geometry->height);
  cairo_scale (cr, MIN (scale, 1), MIN (scale, 1));
  lid_draw_board_ground (cr, self->text, self->theme, geometry);
  for (guint i = 0; i < geometry->n_slots; i++)
    lid_draw_board_slot (cr, self->text, self->theme, geometry, i, LID_SLOT_PLAIN);
  cairo_destroy (cr);
}

/* What the picture shows, for who cannot see it. */
static char *
describe (LidFoundView *self)
{
  const LidJob *job = lid_job_model_get_job (self->model);
  g_autoptr (LidFiguresLine) line = lid_figures_line_new (lid_job_model_get_found (self->model));
  GString *out = g_string_new (NULL);
  guint said = 0;

  for (guint i = 0; i < line->n; i++)
    g_string_append_printf (out, "%s%s, %s", i > 0 ? "; " : "", line->words[i].large,
                            line->words[i].small);
  for (guint i = 0; i < job->board->n_slots && said < MOST_SAID; i++)
    if (job->as_found->slots[i].module != NULL)
      {
        g_autofree char *what = lid_module_describe (job->as_found->slots[i].module);

        g_string_append_printf (out, "; %s: %s", job->board->slots[i].name, what);
        said++;
      }
  return g_string_free (out, FALSE);
}

static void
changed (LidFoundView *self)
{
  g_autofree char *text = NULL;

  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if (!has_found (self) || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  text = describe (self);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text,
                                  -1);
}

static void
lid_found_view_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (lid_found_view_parent_class)->map (widget);
  changed (LID_FOUND_VIEW (widget));
}

static void
look_changed (LidFoundView *self)
{
  self->theme = lid_screen_theme_of (GTK_WIDGET (self));
  changed (self);
}

/**
 * lid_found_view_set_model:
 * @model: (nullable): whose machine as found is shown
 */
void
lid_found_view_set_model (LidFoundView *self, LidJobModel *model)
{
  if (self->model != NULL)
    g_signal_handlers_disconnect_by_func (self->model, changed, self);
  g_set_object (&self->model, model);
  if (model != NULL)
    g_signal_connect_object (model, "changed", G_CALLBACK (changed), self, G_CONNECT_SWAPPED);
  changed (self);
}

void
lid_found_view_set_lid_off (LidFoundView *self, gboolean lid_off)
{
  self->lid_off = lid_off;
  changed (self);
}

static void
lid_found_view_finalize (GObject *object)
{
  LidFoundView *self = LID_FOUND_VIEW (object);

  g_clear_object (&self->model);
  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  lid_draw_text_free (self->text);
  G_OBJECT_CLASS (lid_found_view_parent_class)->finalize (object);
}

static void
lid_found_view_class_init (LidFoundViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = lid_found_view_finalize;
  widget_class->snapshot = lid_found_view_snapshot;
  widget_class->map = lid_found_view_map;
  gtk_widget_class_set_css_name (widget_class, "found");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
lid_found_view_init (LidFoundView *self)
{
  GtkWidget *widget = GTK_WIDGET (self);

  self->theme = lid_screen_theme_of (widget);
  self->text = lid_draw_text_new (self->theme);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_vexpand (widget, TRUE);
  /* Hardware does not mirror. */
  gtk_widget_set_direction (widget, GTK_TEXT_DIR_LTR);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The machine as found"), -1);
  lid_screen_theme_follow (widget, G_CALLBACK (look_changed));
}

GtkWidget *
lid_found_view_new (void)
{
  return g_object_new (LID_TYPE_FOUND_VIEW, NULL);
}
