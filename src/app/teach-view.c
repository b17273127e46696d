/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/teach-view.h"

#include "app/screen-theme.h"
#include "app/teach-clicks.h"
#include "drawing/draw-board.h"
#include "job/job-teach.h"

#include <glib/gi18n.h>

struct _LidTeachView
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *clicks;
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

/* What the row chosen stands for; the last one is what was clicked together. */
static char *
pattern_of (LidTeachView *self, guint row)
{
  return row < self->offers->len ? g_strdup (self->offers->pdata[row])
                                 : lid_teach_clicks_get_pattern (LID_TEACH_CLICKS (self->clicks));
}

static char *
what_is_left (LidTeachView *self)
{
  guint n = lid_teach_clicks_n_open (LID_TEACH_CLICKS (self->clicks));

  if (!gtk_widget_get_visible (self->clicks) || n == 0)
    return g_strdup ("");
  return g_strdup_printf (
      g_dngettext (NULL, "%u slot has no channel yet.", "%u slots have no channel yet.", n), n);
}

/* Shows the board by the row chosen. Nothing is taught yet. */
static void
choose (LidTeachView *self, guint row)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL, *pattern = NULL, *left = NULL;

  g_clear_pointer (&self->job, lid_job_free);
  if (self->model == NULL || row > self->offers->len)
    return;
  gtk_widget_set_visible (self->clicks, row == self->offers->len);
  pattern = pattern_of (self, row);
  left = what_is_left (self);
  if (pattern != NULL)
    self->job = lid_job_teach (lid_job_model_get_job (self->model), pattern, &error);
  say (self, error != NULL ? error->message : left);
  if (self->job != NULL)
    words = channels_in_words (self->job->board);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->preview),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words != NULL ? words : "",
                                  -1);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "teach.use", self->job != NULL && *left == 0);
  gtk_widget_queue_draw (self->preview);
}

static void
choose_again (LidTeachView *self)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (self->patterns));

  if (row != NULL)
    choose (self, (guint)gtk_list_box_row_get_index (row));
}

/* The job was edited or an edit undone: what is shown, and will be taken, is made of it anew. */
static void
follow_model (LidTeachView *self)
{
  if (self->job != NULL)
    choose_again (self);
}

static void
row_selected (GtkListBox *list, GtkListBoxRow *row, LidTeachView *self)
{
  if (row != NULL)
    choose (self, (guint)gtk_list_box_row_get_index (row));
}

/**
 * lid_teach_view_choose:
 * @row: counted from 0 over what is offered; the row behind them is clicking slots together
 */
void
lid_teach_view_choose (LidTeachView *self, guint row)
{
  GtkListBox *list = GTK_LIST_BOX (self->patterns);

  gtk_list_box_select_row (list, gtk_list_box_get_row_at_index (list, (int)row));
}

/* Enter on a pattern, or a double click, takes it; on the last row it leads to the slots. */
static void
row_activated (GtkListBox *list, GtkListBoxRow *row, LidTeachView *self)
{
  if ((guint)gtk_list_box_row_get_index (row) == self->offers->len)
    gtk_widget_grab_focus (self->clicks);
  else
    gtk_widget_activate_action (GTK_WIDGET (self), "teach.use", NULL);
}

LidTeachBoard *
lid_teach_view_get_slots (LidTeachView *self)
{
  return lid_teach_clicks_get_board (LID_TEACH_CLICKS (self->clicks));
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
add_row (LidTeachView *self, const char *words)
{
  GtkWidget *label = gtk_label_new (words), *row = gtk_list_box_row_new ();

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_list_box_append (GTK_LIST_BOX (self->patterns), row);
}

static void
offer (LidTeachView *self, const LidJob *job)
{
  g_ptr_array_unref (self->offers);
  self->offers = lid_job_teach_offers (job);
  for (guint i = 0; i < self->offers->len; i++)
    {
      g_autofree char *words = lid_job_teach_words (self->offers->pdata[i]);

      add_row (self, words);
    }
  add_row (self, _ ("none of these: click the slots of each channel together"));
  gtk_list_box_select_row (GTK_LIST_BOX (self->patterns),
                           gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->patterns), 0));
}

/**
 * lid_teach_view_set_model:
 * @model: (nullable): a job
 *
 * Returns: whether anything can be taught about it
 */
gboolean
lid_teach_view_set_model (LidTeachView *self, LidJobModel *model)
{
  const LidJob *job = model != NULL ? lid_job_model_get_job (model) : NULL;
  g_autofree char *refusal = job != NULL ? lid_job_teach_refusal (job) : g_strdup ("");
  GtkWidget *row;

  if (self->model != NULL)
    g_signal_handlers_disconnect_by_func (self->model, follow_model, self);
  g_set_object (&self->model, NULL);
  g_clear_pointer (&self->job, lid_job_free);
  while ((row = gtk_widget_get_first_child (self->patterns)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (self->patterns), row);
  g_ptr_array_set_size (self->offers, 0);
  lid_teach_clicks_set_job (LID_TEACH_CLICKS (self->clicks), refusal == NULL ? job : NULL);
  if (refusal != NULL)
    return FALSE;
  g_set_object (&self->model, model);
  g_signal_connect_object (model, "changed", G_CALLBACK (follow_model), self, G_CONNECT_SWAPPED);
  offer (self, job);
  return TRUE;
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
  g_type_ensure (LID_TYPE_TEACH_CLICKS);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/lidleaf/Lidleaf/ui/teach-view.ui");
  gtk_widget_class_bind_template_child (widget_class, LidTeachView, clicks);
  gtk_widget_class_bind_template_child (widget_class, LidTeachView, content);
  gtk_widget_class_bind_template_child (widget_class, LidTeachView, patterns);
  gtk_widget_class_bind_template_child (widget_class, LidTeachView, preview);
  gtk_widget_class_bind_template_child (widget_class, LidTeachView, sentence);
  gtk_widget_class_bind_template_callback (widget_class, choose_again);
  gtk_widget_class_bind_template_callback (widget_class, row_activated);
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
