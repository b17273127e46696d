/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Holds one child whose words wrap, and keeps a question from it: "how narrow can you be at this
 * height?". GTK 4.8 boxes ask it at every layout, a label answers by laying its words out some ten
 * times, and the answer is not used: words wrap to the width there is. */
#define LID_TYPE_WRAPPED (lid_wrapped_get_type ())
G_DECLARE_FINAL_TYPE (LidWrapped, lid_wrapped, LID, WRAPPED, GtkWidget)

GtkWidget *lid_wrapped_new (GtkWidget *child);
