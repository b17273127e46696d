/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/stage-card.h"

#include "app/picture-view.h"
#include "changeover/stages.h"
#include "drawing/figures-line.h"

#include <glib/gi18n.h>

#define PICTURE_WIDTH 300
#define PICTURE_HEIGHT 170

struct _LidStageCard
{
  GtkWidget parent_instance;

  GtkWidget *content;
  char *name;
  guint stage;
};

G_DEFINE_FINAL_TYPE (LidStageCard, lid_stage_card, GTK_TYPE_WIDGET)

static guint wanted_signal;

static void
add_line (LidStageCard *self, const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 40);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  gtk_box_append (GTK_BOX (self->content), label);
}

static void
clicked (GtkButton *button, LidStageCard *self)
{
  g_signal_emit (self, wanted_signal, 0,
                 GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "wish")));
}

static void
add_button (LidStageCard *self, GtkWidget *box, LidStageWish wish, const char *words)
{
  GtkWidget *button = gtk_button_new_with_label (words);

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_widget_add_css_class (button, "link-text");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  self->name, -1);
  g_object_set_data (G_OBJECT (button), "wish", GINT_TO_POINTER (wish));
  g_signal_connect (button, "clicked", G_CALLBACK (clicked), self);
  gtk_box_append (GTK_BOX (box), button);
}

static void
add_buttons (LidStageCard *self, gboolean last)
{
  GtkWidget *sheet = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_box_append (GTK_BOX (self->content), sheet);
  add_button (self, sheet, LID_STAGE_PRINT, _ ("Print Its Bench Sheet…"));
  add_button (self, sheet, LID_STAGE_EXPORT, _ ("Export It…"));
  if (!last)
    add_button (self, self->content, LID_STAGE_TAKE, _ ("Plan This and No More"));
}

/* The name of a stage is the job's text, written as in the middle of a sentence. */
static char *
heading_of (const LidStage *stage, guint n)
{
  g_autofree char *first = NULL;

  if (stage->name == NULL || *stage->name == 0)
    return g_strdup_printf (_ ("Stage %u"), n);
  first = g_utf8_strup (stage->name, (gssize)(g_utf8_next_char (stage->name) - stage->name));
  return g_strconcat (first, g_utf8_next_char (stage->name), NULL);
}

/**
 * lid_stage_card_new:
 * @job: in stages
 * @stage: one of them, from 1
 *
 * Returns: (transfer full): a card
 */
GtkWidget *
lid_stage_card_new (const LidJob *job, guint stage)
{
  LidStageCard *self = g_object_new (LID_TYPE_STAGE_CARD, NULL);
  const LidStage *at = job->stages->pdata[stage - 1];
  GtkWidget *picture = lid_picture_view_new ();
  g_autoptr (LidFiguresLine) line = NULL;
  g_autofree char *figures = NULL, *sentence = NULL, *heading = heading_of (at, stage);
  const LidAssessment *assessment;

  self->stage = stage;
  lid_picture_view_show (LID_PICTURE_VIEW (picture), job->board, at->population,
                         lid_stages_before (job, stage));
  gtk_widget_set_size_request (picture, PICTURE_WIDTH, PICTURE_HEIGHT);
  gtk_box_append (GTK_BOX (self->content), picture);
  assessment = lid_picture_view_get_assessment (LID_PICTURE_VIEW (picture));
  line = lid_figures_line_new (assessment);
  figures = lid_figures_line_to_text (line);
  sentence = lid_stages_describe (job, stage, assessment);
  self->name = g_strdup_printf ("%s: %s", heading, figures);
  add_line (self, heading, "heading");
  add_line (self, figures, "plan-figures");
  add_line (self, sentence, NULL);
  add_buttons (self, stage == job->stages->len);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, self->name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence, -1);
  return GTK_WIDGET (self);
}

/**
 * lid_stage_card_get_stage:
 *
 * Returns: which stage it shows, from 1
 */
guint
lid_stage_card_get_stage (LidStageCard *self)
{
  return self->stage;
}

/**
 * lid_stage_card_get_name:
 *
 * Returns: what it is called where it is not seen: for the cell it stands in
 */
const char *
lid_stage_card_get_name (LidStageCard *self)
{
  return self->name;
}

static void
lid_stage_card_finalize (GObject *object)
{
  g_free (LID_STAGE_CARD (object)->name);
  G_OBJECT_CLASS (lid_stage_card_parent_class)->finalize (object);
}

static void
lid_stage_card_dispose (GObject *object)
{
  g_clear_pointer (&LID_STAGE_CARD (object)->content, gtk_widget_unparent);
  G_OBJECT_CLASS (lid_stage_card_parent_class)->dispose (object);
}

static void
lid_stage_card_class_init (LidStageCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_stage_card_dispose;
  G_OBJECT_CLASS (klass)->finalize = lid_stage_card_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "plancard"); /* looks as a plan does */
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  wanted_signal = g_signal_new ("wanted", LID_TYPE_STAGE_CARD, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, G_TYPE_INT);
}

static void
lid_stage_card_init (LidStageCard *self)
{
  self->content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_widget_set_parent (self->content, GTK_WIDGET (self));
}
