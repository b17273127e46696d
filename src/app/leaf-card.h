/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"

#include <gtk/gtk.h>

/* A population as a small leaf with lines and buttons below it: what an option of a plan and a
 * stage of it have in common. */
#define LID_TYPE_LEAF_CARD (lid_leaf_card_get_type ())
G_DECLARE_DERIVABLE_TYPE (LidLeafCard, lid_leaf_card, LID, LEAF_CARD, GtkWidget)

struct _LidLeafCardClass
{
  GtkWidgetClass parent_class;
};

const LidAssessment *lid_leaf_card_add_picture (LidLeafCard *self,
                                                LidBoard *board,
                                                const LidPopulation *population,
                                                const LidPopulation *before,
                                                int height);
void lid_leaf_card_add_line (LidLeafCard *self, const char *text, const char *css_class);
GtkWidget *lid_leaf_card_add_button (LidLeafCard *self, GtkWidget *box, const char *words);
void lid_leaf_card_add_widget (LidLeafCard *self, GtkWidget *widget);
void lid_leaf_card_describe (LidLeafCard *self, const char *name, const char *description);
const char *lid_leaf_card_get_name (LidLeafCard *self);
