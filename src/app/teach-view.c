/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/teach-view.h"

#include "app/screen-theme.h"
#include "drawing/draw-board.h"
#include "job/job-teach.h"

#include <glib/gi18n.h>

struct _LidTeachView
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *content;
  GtkWidget *patterns;
  GtkWidget *preview;
  GtkWidget *sentence;
  /* owned */
  LidJobModel *model;
  GPtrArray *offers; /* (element-type utf8) */
  LidJob *job;       /* the job as taught by the pattern that is chosen */
  LidDrawText *text;
  const LidTheme *theme; /* borrowed */
};

G_DEFINE_FINAL_TYPE (LidTeachView, lid_teach_view, GTK_TYPE_WIDGET)

static guint taught_signal;

static void
say (LidTeachView *self, const char *sentence)
{
  gtk_label_set_label (GTK_LABEL (self->sentence), sentence);
}

static const LidPopulation *
shown (const LidJob *job)
{
  const LidPopulation *planned = lid_job_get_population (job, LID_PLANNED);

  return planned != NULL ? planned : job->as_found;
}

/* The same drawing as the board itself, so that what is taught looks like what will be. */
static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  LidTeachView *self = data;
  LidBoardView view = { .width = width,
                        .height = height,
                        .text_scale = lid_screen_theme_text_scale (GTK_WIDGET (self)) };
  g_autoptr (LidBoardGeometry) geometry = NULL;
  g_autoptr (LidPopulation) empty = NULL;
  LidMeasure measure;
  const LidPopulation *population;

  if (self->job == NULL)
    return;
  if (self->theme != lid_screen_theme_of (GTK_WIDGET (self)) || self->text == NULL)
    {
      self->theme = lid_screen_theme_of (GTK_WIDGET (self));
      g_clear_pointer (&self->text, lid_draw_text_free);
      self->text = lid_draw_text_new (self->theme);
    }
  measure = lid_draw_text_measure (self->text);
  population = shown (self->job);
  if (population == NULL)
    population = empty = lid_population_new (self->job->board);
  geometry = lid_board_geometry_new (self->job->board, population, NULL, NULL, &view, &measure);
  lid_draw_board_ground (cr, self->text, self->theme, geometry);
  for (guint i = 0; i < geometry->n_slots; i++)
    lid_draw_board_slot (cr, self->text, self->theme, geometry, i, LID_SLOT_PLAIN);
}

/* In words for those who do not see the preview: "channel 1: DIMM 1, DIMM 2; …". */
static char *
channels_in_words (const LidBoard *board)
{
  GString *words = g_string_new (NULL);

  for (guint c = 0; c < board->n_channels; c++)
    {
      const LidBoardChannel *channel = &board->channels[c];

      g_string_append_printf (words, c > 0 ? _ ("; channel %s:") : _ ("channel %s:"),
                              channel->name);
      for (guint i = 0; i < channel->n_slots; i++)
        g_string_append_printf (words, "%s %s", i > 0 ? "," : "",
                                board->slots[channel->slots[i]].name);
    }
  return g_string_free (words, FALSE);
}

/**
 * lid_teach_view_choose:
 * @pattern: counted from 0 over what is offered
 *
 * Shows the board by this pattern. Nothing is taught yet.
 */
void
lid_teach_view_choose (LidTeachView *self, guint pattern)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;

  g_clear_pointer (&self->job, lid_job_free);
  if (self->model == NULL || pattern >= self->offers->len)
    return;
  self->job
      = lid_job_teach (lid_job_model_get_job (self->model), self->offers->pdata[pattern], &error);
  if (self->job == NULL)
    say (self, error->message);
  else
    {
      words = channels_in_words (self->job->board);
      say (self, "");
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->preview),
                                      GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
    }
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "teach.use", self->job != NULL);
  gtk_widget_queue_draw (self->preview);
}

/* The job was edited or an edit undone: what is shown, and will be taken, is made of it anew. */
static void
follow_model (LidTeachView *self)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (self->patterns));

  if (self->job != NULL && row != NULL)
    lid_teach_view_choose (self, (guint)gtk_list_box_row_get_index (row));
}

static void
row_selected (GtkListBox *list, GtkListBoxRow *row, LidTeachView *self)
{
  if (row != NULL)
    lid_teach_view_choose (self, (guint)gtk_list_box_row_get_index (row));
}

guint
lid_teach_view_n_patterns (LidTeachView *self)
{
  return self->offers->len;
}

/**
 * lid_teach_view_get_preview:
 *
 * Returns: (transfer none) (nullable): the job as the pattern chosen would make it
 */
const LidJob *
lid_teach_view_get_preview (LidTeachView *self)
{
  return self->job;
}

/**
 * lid_teach_view_take_job:
 * Returns: (transfer full) (nullable): the job as it stands now, taught; the view forgets it
 */
LidJob *
lid_teach_view_take_job (LidTeachView *self)
{
  return g_steal_pointer (&self->job);
}

static void
add_pattern (LidTeachView *self, const char *pattern)
{
  g_autofree char *words = lid_job_teach_words (pattern);
  GtkWidget *label = gtk_label_new (words), *row = gtk_list_box_row_new ();

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_list_box_append (GTK_LIST_BOX (self->patterns), row);
}

/**
 * lid_teach_view_set_model:
 * @model: (nullable): a job
 *
 * Returns: whether there is anything to teach: channels not told, and a pattern that fits
 */
gboolean
lid_teach_view_set_model (LidTeachView *self, LidJobModel *model)
{
  const LidJob *job = model != NULL ? lid_job_model_get_job (model) : NULL;
  GtkWidget *row;

  while ((row = gtk_widget_get_first_child (self->patterns)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (self->patterns), row);
  if (self->model != NULL)
    g_signal_handlers_disconnect_by_func (self->model, follow_model, self);
  g_set_object (&self->model, model);
  if (model != NULL)
    g_signal_connect_object (model, "changed", G_CALLBACK (follow_model), self, G_CONNECT_SWAPPED);
  g_clear_pointer (&self->job, lid_job_free);
  g_ptr_array_set_size (self->offers, 0);
  if (job == NULL || job->board->channels_told)
    return FALSE;
  g_ptr_array_unref (self->offers);
  self->offers = lid_job_teach_offers (job);
  for (guint i = 0; i < self->offers->len; i++)
    add_pattern (self, self->offers->pdata[i]);
  gtk_list_box_select_row (GTK_LIST_BOX (self->patterns),
                           gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->patterns), 0));
  return self->offers->len > 0;
}

/* The window makes the edit, and keeps the board as one of the user's. */
static void
use (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidTeachView *self = LID_TEACH_VIEW (widget);

  if (self->job != NULL)
    g_signal_emit (self, taught_signal, 0);
}

static void
lid_teach_view_dispose (GObject *object)
{
  LidTeachView *self = LID_TEACH_VIEW (object);

  g_clear_object (&self->model);
  g_clear_pointer (&self->job, lid_job_free);
  g_clear_pointer (&self->text, lid_draw_text_free);
  gtk_widget_dispose_template (GTK_WIDGET (self), LID_TYPE_TEACH_VIEW);
  G_OBJECT_CLASS (lid_teach_view_parent_class)->dispose (object);
}

static void
lid_teach_view_finalize (GObject *object)
{
  g_ptr_array_unref (LID_TEACH_VIEW (object)->offers);
  G_OBJECT_CLASS (lid_teach_view_parent_class)->finalize (object);
}

static void
lid_teach_view_class_init (LidTeachViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_teach_view_dispose;
  G_OBJECT_CLASS (klass)->finalize = lid_teach_view_finalize;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/lidleaf/Lidleaf/ui/teach-view.ui");
  gtk_widget_class_bind_template_child (widget_class, LidTeachView, content);
  gtk_widget_class_bind_template_child (widget_class, LidTeachView, patterns);
  gtk_widget_class_bind_template_child (widget_class, LidTeachView, preview);
  gtk_widget_class_bind_template_child (widget_class, LidTeachView, sentence);
  gtk_widget_class_bind_template_callback (widget_class, row_selected);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "teach");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_install_action (widget_class, "teach.use", NULL, use);
  taught_signal = g_signal_new ("taught", LID_TYPE_TEACH_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 0);
}

static void
lid_teach_view_init (LidTeachView *self)
{
  self->offers = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (self->preview), draw, self, NULL);
  lid_screen_theme_follow (self->preview, G_CALLBACK (gtk_widget_queue_draw));
}

GtkWidget *
lid_teach_view_new (void)
{
  return g_object_new (LID_TYPE_TEACH_VIEW, NULL);
}
