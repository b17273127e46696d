/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/stages-view.h"

#include "app/stages-split.h"
#include "app/window-actions.h"
#include "app/wrapped.h"
#include "base/text.h"
#include "changeover/stage-parts.h"
#include "changeover/stages.h"

#include <glib/gi18n.h>

#define PAUSE_MS 250 /* after the last change of a count: nobody wants a split for every click */

struct _LidStagesView
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *content;
  GtkWidget *parts; /* a grid: what, how many are missing, of how many */
  GtkWidget *source;
  GtkWidget *sentence;
  GtkWidget *keep;
  GtkWidget *cards;
  /* owned */
  LidJobModel *model; /* NULL once disposed */
  LidShelf *shelf;    /* nullable */
  LidJob *job;        /* nullable: the job in two stages */
  GPtrArray *spins;   /* GtkSpinButton, one a part */
  guint pause;        /* source; 0: none */
  gboolean running;
  gboolean again; /* what runs answers a question that is not asked any more */
};

G_DEFINE_FINAL_TYPE (LidStagesView, lid_stages_view, GTK_TYPE_WIDGET)

static guint wanted_signal;

static void
say (LidStagesView *self, const char *sentence)
{
  gtk_label_set_label (GTK_LABEL (self->sentence), sentence);
}

/* What follows a file's name on a command line stands by itself here. */
static void
say_error (LidStagesView *self, const char *message)
{
  g_autofree char *begun = lid_text_begin (message), *sentence = g_strconcat (begun, ".", NULL);

  say (self, sentence);
}

static void
forget_split (LidStagesView *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->cards)) != NULL)
    gtk_flow_box_remove (GTK_FLOW_BOX (self->cards), child);
  gtk_widget_set_visible (self->keep, FALSE);
  g_clear_pointer (&self->job, lid_job_free);
}

static void
card_wanted (LidStageCard *card, LidStageWish wish, LidStagesView *self)
{
  g_signal_emit (self, wanted_signal, 0, wish, lid_stage_card_get_stage (card));
}

static void
keep_clicked (LidStagesView *self)
{
  g_signal_emit (self, wanted_signal, 0, LID_STAGE_KEEP, 0);
}

static void
show_split (LidStagesView *self)
{
  for (guint i = 0; i < self->job->stages->len; i++)
    {
      GtkWidget *card = lid_stage_card_new (self->job, i + 1);

      g_signal_connect_object (card, "wanted", G_CALLBACK (card_wanted), self, 0);
      gtk_flow_box_insert (GTK_FLOW_BOX (self->cards), card, -1);
      gtk_widget_set_focusable (gtk_widget_get_parent (card), FALSE);
      lid_window_actions_name (gtk_widget_get_parent (card),
                               lid_leaf_card_get_name (LID_LEAF_CARD (card)));
    }
  gtk_widget_set_visible (self->keep, TRUE);
  say (self, lid_stages_every_way (self->job)
                 ? _ ("This is what can be done tonight, and what is left for later.")
                 : lid_stages_not_every_way ());
}

static void begin (LidStagesView *self);

static void
split (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (LidStagesView) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) job = lid_stages_split_finish (result, &error);

  self->running = FALSE;
  if (self->model == NULL)
    return;
  if (self->again)
    {
      begin (self);
      return;
    }
  forget_split (self);
  self->job = g_steal_pointer (&job);
  if (self->job != NULL)
    show_split (self);
  else
    say_error (self, error->message);
}

static void
begin (LidStagesView *self)
{
  g_autofree guint *missing = g_new0 (guint, self->spins->len + 1);
  guint n = 0;

  if (self->running)
    {
      self->again = TRUE;
      return;
    }
  self->again = FALSE;
  for (guint i = 0; i < self->spins->len; i++)
    n += missing[i] = lid_stages_view_get_missing (self, i);
  if (self->spins->len == 0)
    say (self, _ ("The plan brings no module into the machine: all of it can be done tonight."));
  else if (n == 0)
    say (self, _ ("All that the plan brings is there. Say above what is not."));
  else
    {
      self->running = TRUE;
      lid_stages_split_async (lid_job_model_get_job (self->model), missing, self->spins->len, split,
                              g_object_ref (self));
    }
}

static gboolean
pause_over (gpointer data)
{
  LidStagesView *self = data;

  self->pause = 0;
  begin (self);
  return G_SOURCE_REMOVE;
}

static void
asked_anew (LidStagesView *self)
{
  g_clear_handle_id (&self->pause, g_source_remove);
  forget_split (self);
  say (self, "");
  self->again = self->running;
  self->pause = g_timeout_add (PAUSE_MS, pause_over, self);
}

static void
add_part (LidStagesView *self, int row, const LidStagePart *part)
{
  GtkWidget *what = gtk_label_new (NULL), *of = gtk_label_new (NULL);
  GtkWidget *spin = gtk_spin_button_new_with_range (0, part->modules->len, 1);
  g_autofree char *words = part->part != NULL ? g_strdup_printf ("%s · %s", part->part, part->words)
                                              : g_strdup (part->words);
  g_autofree char *name = g_strdup_printf (_ ("How many are not there of %s"), words);
  /* Translators: behind a number that is typed: "2 of 4 missing". */
  g_autofree char *count = g_strdup_printf (_ ("of %u missing"), part->modules->len);

  gtk_label_set_label (GTK_LABEL (what), words);
  gtk_label_set_xalign (GTK_LABEL (what), 0);
  gtk_label_set_ellipsize (GTK_LABEL (what), PANGO_ELLIPSIZE_MIDDLE);
  gtk_label_set_label (GTK_LABEL (of), count);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), part->missing);
  lid_window_actions_name (spin, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (spin), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, count,
                                  -1);
  g_signal_connect_object (spin, "value-changed", G_CALLBACK (asked_anew), self, G_CONNECT_SWAPPED);
  gtk_grid_attach (GTK_GRID (self->parts), what, 0, row, 1, 1);
  gtk_grid_attach (GTK_GRID (self->parts), spin, 1, row, 1, 1);
  gtk_grid_attach (GTK_GRID (self->parts), of, 2, row, 1, 1);
  g_ptr_array_add (self->spins, spin);
}

/* Where the counts come from, so that nobody takes a guess for a look at the shelf. */
static char *
words_of_source (LidStagesView *self)
{
  const LidJob *job = lid_job_model_get_job (self->model);
  g_autofree char *name = NULL, *shelf = NULL;

  if (job->stages->len > 1)
    return g_strdup (
        _ ("The plan is in stages already: what the first does without counts as not there."));
  if (self->shelf == NULL)
    return g_strdup (_ ("No stock file was looked at: what has to be bought counts as not there."));
  name = g_file_get_basename (lid_shelf_get_file (self->shelf));
  shelf = g_strdup_printf (_ ("What %s does not hold for this job counts as not there."), name);
  if (lid_shelf_has_news (self->shelf))
    {
      g_autofree char *rows = lid_shelf_describe (self->shelf);

      return g_strconcat (shelf, " ", rows, NULL);
    }
  return g_steal_pointer (&shelf);
}

/* Another plan brings other parts. */
static void
list_parts (LidStagesView *self)
{
  const LidJob *job = lid_job_model_get_job (self->model);
  g_autoptr (GPtrArray) parts = lid_stage_parts_new (job);
  g_autofree char *words = words_of_source (self);
  GtkWidget *child;

  g_ptr_array_set_size (self->spins, 0);
  while ((child = gtk_widget_get_first_child (self->parts)) != NULL)
    gtk_grid_remove (GTK_GRID (self->parts), child);
  if (self->shelf != NULL && job->stages->len < 2)
    lid_stage_parts_use_stock (parts, lid_shelf_get_stock (self->shelf));
  for (guint i = 0; i < parts->len; i++)
    add_part (self, (int)i, parts->pdata[i]);
  gtk_label_set_label (GTK_LABEL (self->source), words);
  gtk_widget_set_visible (self->source, parts->len > 0);
  asked_anew (self);
}

/**
 * lid_stages_view_use_shelf:
 * @shelf: what is there is counted on it from now on
 */
void
lid_stages_view_use_shelf (LidStagesView *self, LidShelf *shelf)
{
  g_set_object (&self->shelf, shelf);
  if (self->model != NULL)
    list_parts (self);
}

/**
 * lid_stages_view_get_job:
 *
 * Returns: (transfer none) (nullable): the job in two stages, once they are shown
 */
const LidJob *
lid_stages_view_get_job (LidStagesView *self)
{
  return self->job;
}

/**
 * lid_stages_view_get_sentence:
 *
 * Returns: (transfer none): what is said of the stages; empty: they are being worked out
 */
const char *
lid_stages_view_get_sentence (LidStagesView *self)
{
  return gtk_label_get_label (GTK_LABEL (self->sentence));
}

guint
lid_stages_view_get_n_parts (LidStagesView *self)
{
  return self->spins->len;
}

/**
 * lid_stages_view_set_missing:
 * @part: which row of the list
 * @missing: how many of it are not there
 */
void
lid_stages_view_set_missing (LidStagesView *self, guint part, guint missing)
{
  gtk_spin_button_set_value (self->spins->pdata[part], missing);
}

guint
lid_stages_view_get_missing (LidStagesView *self, guint part)
{
  return (guint)gtk_spin_button_get_value_as_int (self->spins->pdata[part]);
}

static gboolean
lid_stages_view_grab_focus (GtkWidget *widget)
{
  LidStagesView *self = LID_STAGES_VIEW (widget);

  if (self->spins->len > 0)
    return gtk_widget_grab_focus (self->spins->pdata[0]);
  return gtk_widget_child_focus (self->content, GTK_DIR_TAB_FORWARD);
}

static void
lid_stages_view_dispose (GObject *object)
{
  LidStagesView *self = LID_STAGES_VIEW (object);

  g_clear_handle_id (&self->pause, g_source_remove);
  g_clear_object (&self->model);
  g_clear_object (&self->shelf);
  g_clear_pointer (&self->job, lid_job_free);
  g_ptr_array_set_size (self->spins, 0);
  gtk_widget_dispose_template (GTK_WIDGET (object), LID_TYPE_STAGES_VIEW);
  G_OBJECT_CLASS (lid_stages_view_parent_class)->dispose (object);
}

static void
lid_stages_view_finalize (GObject *object)
{
  g_ptr_array_unref (LID_STAGES_VIEW (object)->spins);
  G_OBJECT_CLASS (lid_stages_view_parent_class)->finalize (object);
}

static void
lid_stages_view_class_init (LidStagesViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_stages_view_dispose;
  G_OBJECT_CLASS (klass)->finalize = lid_stages_view_finalize;
  widget_class->grab_focus = lid_stages_view_grab_focus;
  g_type_ensure (LID_TYPE_WRAPPED);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/lidleaf/Lidleaf/ui/stages-view.ui");
  gtk_widget_class_bind_template_child (widget_class, LidStagesView, content);
  gtk_widget_class_bind_template_child (widget_class, LidStagesView, parts);
  gtk_widget_class_bind_template_child (widget_class, LidStagesView, source);
  gtk_widget_class_bind_template_child (widget_class, LidStagesView, sentence);
  gtk_widget_class_bind_template_child (widget_class, LidStagesView, keep);
  gtk_widget_class_bind_template_child (widget_class, LidStagesView, cards);
  gtk_widget_class_bind_template_callback (widget_class, keep_clicked);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "plan"); /* looks as the page of plans does */
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  wanted_signal = g_signal_new ("wanted", LID_TYPE_STAGES_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 2, G_TYPE_INT, G_TYPE_UINT);
}

static void
lid_stages_view_init (LidStagesView *self)
{
  self->spins = g_ptr_array_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
}

/**
 * lid_stages_view_new:
 * @model: whose plan; another plan of it is asked about anew
 *
 * Returns: (transfer full): the page
 */
GtkWidget *
lid_stages_view_new (LidJobModel *model)
{
  LidStagesView *self = g_object_new (LID_TYPE_STAGES_VIEW, NULL);

  self->model = g_object_ref (model);
  g_signal_connect_object (model, "changed", G_CALLBACK (list_parts), self, G_CONNECT_SWAPPED);
  list_parts (self);
  return GTK_WIDGET (self);
}
