/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/hands.h"

#include <gtk/gtk.h>

/* What lies on the tray, side by side. */
#define LID_TYPE_TRAY_ROW (lid_tray_row_get_type ())
G_DECLARE_FINAL_TYPE (LidTrayRow, lid_tray_row, LID, TRAY_ROW, GtkWidget)

void lid_tray_row_show (LidTrayRow *self, LidHands *hands, const GPtrArray *groups);
void lid_tray_row_clear (LidTrayRow *self);
GtkWidget *lid_tray_row_find (LidTrayRow *self, const LidModule *module);
