/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/plan-card.h"

#include "drawing/figures-line.h"

#include <glib/gi18n.h>

#define PICTURE_HEIGHT 200

struct _LidPlanCard
{
  LidLeafCard parent_instance;

  int option;
};

G_DEFINE_FINAL_TYPE (LidPlanCard, lid_plan_card, LID_TYPE_LEAF_CARD)

static guint taken_signal;

static void
take (GtkButton *button, LidPlanCard *self)
{
  g_signal_emit (self, taken_signal, 0);
}

/* At the bottom: beside a card of more lines the buttons stand in a row. */
static void
add_take (LidPlanCard *self)
{
  GtkWidget *button = lid_leaf_card_add_button (LID_LEAF_CARD (self), NULL, _ ("Take This Plan"));

  gtk_widget_set_valign (button, GTK_ALIGN_END);
  gtk_widget_set_vexpand (button, TRUE);
  g_signal_connect (button, "clicked", G_CALLBACK (take), self);
}

/**
 * lid_plan_card_new:
 * @shown: one option
 *
 * Returns: (transfer full): a card
 */
GtkWidget *
lid_plan_card_new (const LidPlanShown *shown)
{
  LidPlanCard *self = g_object_new (LID_TYPE_PLAN_CARD, NULL);
  LidLeafCard *card = LID_LEAF_CARD (self);
  g_autoptr (LidFiguresLine) line = lid_figures_line_new (lid_leaf_card_add_picture (
      card, shown->board, shown->population, shown->before, PICTURE_HEIGHT));
  g_autofree char *figures = lid_figures_line_to_text (line);
  g_autofree char *name = NULL, *more = NULL;

  self->option = shown->option;
  if (*shown->picks != 0)
    lid_leaf_card_add_line (card, shown->picks, "heading");
  lid_leaf_card_add_line (card, figures, "plan-figures");
  lid_leaf_card_add_line (card, shown->cost, NULL);
  lid_leaf_card_add_line (card, shown->hands, NULL);
  if (shown->why != NULL)
    lid_leaf_card_add_line (card, shown->why, "soft");
  name
      = *shown->picks != 0 ? g_strdup_printf ("%s: %s", shown->picks, figures) : g_strdup (figures);
  more = g_strdup_printf ("%s. %s. %s", shown->cost, shown->hands,
                          shown->why != NULL ? shown->why : "");
  lid_leaf_card_describe (card, name, more);
  if (self->option != -1)
    add_take (self);
  return GTK_WIDGET (self);
}

/**
 * lid_plan_card_get_option:
 *
 * Returns: which of the plan's options it shows; -1: one found on the way, not to be taken yet
 */
int
lid_plan_card_get_option (LidPlanCard *self)
{
  return self->option;
}

static void
lid_plan_card_class_init (LidPlanCardClass *klass)
{
  taken_signal = g_signal_new ("taken", LID_TYPE_PLAN_CARD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
}

static void
lid_plan_card_init (LidPlanCard *self)
{
}
