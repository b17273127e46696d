/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* A tooltip that costs nothing until the pointer rests: at each gtk_widget_set_tooltip_text()
 * GTK 4.8 asks the screen three times where the pointer is, and waits for the answers. */
void lid_tooltip_set (GtkWidget *widget, const char *text);
const char *lid_tooltip_get (GtkWidget *widget);
gboolean lid_tooltip_may_show (GtkWidget *widget);
