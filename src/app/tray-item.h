/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/hands.h"

#include <gtk/gtk.h>

/* Modules of the tray that are alike, as one thing to pick up. */
#define LID_TYPE_TRAY_ITEM (lid_tray_item_get_type ())
G_DECLARE_FINAL_TYPE (LidTrayItem, lid_tray_item, LID, TRAY_ITEM, GtkWidget)

GtkWidget *lid_tray_item_new (LidHands *hands);
void lid_tray_item_show (LidTrayItem *self, const LidTrayGroup *group);
void lid_tray_item_show_nothing (LidTrayItem *self);
LidModule *lid_tray_item_get_module (LidTrayItem *self);
guint lid_tray_item_get_count (LidTrayItem *self);
