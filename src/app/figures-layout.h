/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Figures in one line, packed from where reading begins; in narrow windows their small words break,
 * then the figures stand in two lines or below each other. A widget set as the end stands at the
 * other end of the first line. */
#define LID_TYPE_FIGURES_LAYOUT (lid_figures_layout_get_type ())
G_DECLARE_FINAL_TYPE (LidFiguresLayout, lid_figures_layout, LID, FIGURES_LAYOUT, GtkLayoutManager)

void lid_figures_layout_set_end (LidFiguresLayout *self, GtkWidget *end);
