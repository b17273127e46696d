/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/found-view.h"

#include "app/picture-view.h"
#include "drawing/figures-line.h"

#include <glib/gi18n.h>

#define MOST_SAID 48u /* slots read aloud; of more, their number */

struct _LidFoundView
{
  GtkWidget parent_instance;

  GtkWidget *picture;
  LidJobModel *model; /* owned, nullable */
};

G_DEFINE_FINAL_TYPE (LidFoundView, lid_found_view, GTK_TYPE_WIDGET)

static gboolean
has_found (LidFoundView *self)
{
  return self->model != NULL && lid_job_model_get_job (self->model)->as_found != NULL;
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

        g_string_append_printf (out, "; %s: %s", lid_board_name_slot (job->board, i), what);
        said++;
      }
  return g_string_free (out, FALSE);
}

/* A view that is not shown is not made. */
static void
changed (LidFoundView *self)
{
  const LidJob *job = self->model != NULL ? lid_job_model_get_job (self->model) : NULL;
  g_autofree char *text = NULL;

  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  if (!has_found (self))
    {
      lid_picture_view_show (LID_PICTURE_VIEW (self->picture), NULL, NULL, NULL);
      return;
    }
  lid_picture_view_show (LID_PICTURE_VIEW (self->picture), job->board, job->as_found, NULL);
  text = describe (self);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text,
                                  -1);
}

/* An edit of the plan leaves as found as it was: nothing is painted or said again. */
static void
job_changed (LidFoundView *self)
{
  const LidJob *job = lid_job_model_get_job (self->model);

  if (!lid_picture_view_shows (LID_PICTURE_VIEW (self->picture), job->board, job->as_found))
    changed (self);
}

static void
lid_found_view_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (lid_found_view_parent_class)->map (widget);
  changed (LID_FOUND_VIEW (widget));
}

/**
 * lid_found_view_set_model:
 * @model: (nullable): whose machine as found is shown
 */
void
lid_found_view_set_model (LidFoundView *self, LidJobModel *model)
{
  if (self->model != NULL)
    g_signal_handlers_disconnect_by_func (self->model, job_changed, self);
  g_set_object (&self->model, model);
  if (model != NULL)
    g_signal_connect_object (model, "changed", G_CALLBACK (job_changed), self, G_CONNECT_SWAPPED);
  changed (self);
}

void
lid_found_view_set_lid_off (LidFoundView *self, gboolean lid_off)
{
  lid_picture_view_set_lid_off (LID_PICTURE_VIEW (self->picture), lid_off);
}

static void
lid_found_view_dispose (GObject *object)
{
  LidFoundView *self = LID_FOUND_VIEW (object);

  g_clear_object (&self->model);
  g_clear_pointer (&self->picture, gtk_widget_unparent);
  G_OBJECT_CLASS (lid_found_view_parent_class)->dispose (object);
}

static void
lid_found_view_class_init (LidFoundViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_found_view_dispose;
  widget_class->map = lid_found_view_map;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "found");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
lid_found_view_init (LidFoundView *self)
{
  self->picture = lid_picture_view_new ();
  gtk_widget_set_parent (self->picture, GTK_WIDGET (self));
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The machine as found"), -1);
}

GtkWidget *
lid_found_view_new (void)
{
  return g_object_new (LID_TYPE_FOUND_VIEW, NULL);
}
