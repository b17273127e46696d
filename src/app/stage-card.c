/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/stage-card.h"

#include "base/text.h"
#include "changeover/stages.h"
#include "drawing/figures-line.h"

#include <glib/gi18n.h>

#define PICTURE_HEIGHT 170

struct _LidStageCard
{
  LidLeafCard parent_instance;

  guint stage;
};

G_DEFINE_FINAL_TYPE (LidStageCard, lid_stage_card, LID_TYPE_LEAF_CARD)

static guint wanted_signal;

static void
clicked (GtkButton *button, LidStageCard *self)
{
  g_signal_emit (self, wanted_signal, 0,
                 GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "wish")));
}

static void
add_button (LidStageCard *self, GtkWidget *box, LidStageWish wish, const char *words)
{
  GtkWidget *button = lid_leaf_card_add_button (LID_LEAF_CARD (self), box, words);

  g_object_set_data (G_OBJECT (button), "wish", GINT_TO_POINTER (wish));
  g_signal_connect (button, "clicked", G_CALLBACK (clicked), self);
}

static void
add_buttons (LidStageCard *self, gboolean last)
{
  GtkWidget *sheet = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  lid_leaf_card_add_widget (LID_LEAF_CARD (self), sheet);
  add_button (self, sheet, LID_STAGE_PRINT, _ ("Print Its Bench Sheet…"));
  add_button (self, sheet, LID_STAGE_EXPORT, _ ("Export It…"));
  if (!last)
    add_button (self, NULL, LID_STAGE_TAKE, _ ("Plan This and No More"));
}

/* The name of a stage is the job's text, written as in the middle of a sentence. */
static char *
heading_of (const LidStage *stage, guint n)
{
  if (stage->name == NULL || *stage->name == 0)
    return g_strdup_printf (_ ("Stage %u"), n);
  return lid_text_begin (stage->name);
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
  LidLeafCard *card = LID_LEAF_CARD (self);
  const LidStage *at = job->stages->pdata[stage - 1];
  const LidAssessment *assessment = lid_leaf_card_add_picture (
      card, job->board, at->population, lid_stages_before (job, stage), PICTURE_HEIGHT);
  g_autoptr (LidFiguresLine) line = lid_figures_line_new (assessment);
  g_autofree char *figures = lid_figures_line_to_text (line), *heading = heading_of (at, stage);
  g_autofree char *sentence = lid_stages_describe (job, stage, assessment);
  g_autofree char *name = g_strdup_printf ("%s: %s", heading, figures);

  self->stage = stage;
  lid_leaf_card_add_line (card, heading, "heading");
  lid_leaf_card_add_line (card, figures, "plan-figures");
  lid_leaf_card_add_line (card, sentence, NULL);
  lid_leaf_card_describe (card, name, sentence);
  add_buttons (self, stage == job->stages->len);
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

static void
lid_stage_card_class_init (LidStageCardClass *klass)
{
  wanted_signal = g_signal_new ("wanted", LID_TYPE_STAGE_CARD, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, G_TYPE_INT);
}

static void
lid_stage_card_init (LidStageCard *self)
{
}
