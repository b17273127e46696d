/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"
#include "help/explain.h"

#include <gtk/gtk.h>

/* The line of large figures; each, clicked, says what it means. What switches the view stands at
 * its end. */
#define LID_TYPE_FIGURES_BAR (lid_figures_bar_get_type ())
G_DECLARE_FINAL_TYPE (LidFiguresBar, lid_figures_bar, LID, FIGURES_BAR, GtkWidget)

/* What more there is to say of a figure, made when it is asked for; NULL: nothing. */
typedef LidExplanation *(*LidFiguresBarMore) (guint figure, gpointer data);

void lid_figures_bar_set_more (LidFiguresBar *self, LidFiguresBarMore more, gpointer data);
void lid_figures_bar_show (LidFiguresBar *self,
                           const LidAssessment *assessment,
                           const LidAssessment *before,
                           const LidBoard *board);
const char *lid_figures_bar_get_text (LidFiguresBar *self);
GtkWidget *lid_figures_bar_get_figure (LidFiguresBar *self, guint which);
void lid_figures_bar_set_end (LidFiguresBar *self, GtkWidget *end);
