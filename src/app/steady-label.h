/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Words that change with every hand. A GtkLabel has the whole window laid out anew at every change;
 * this one only when its words need more room than they have. */
#define LID_TYPE_STEADY_LABEL (lid_steady_label_get_type ())
G_DECLARE_FINAL_TYPE (LidSteadyLabel, lid_steady_label, LID, STEADY_LABEL, GtkWidget)

GtkWidget *lid_steady_label_new (gboolean wrap);
void lid_steady_label_set_text (LidSteadyLabel *self, const char *text);
const char *lid_steady_label_get_text (LidSteadyLabel *self);
