/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/hands.h"

#include <gtk/gtk.h>

/* The strip along the bottom edge: modules at hand, and the field that takes labels and slot
 * names. */
#define LID_TYPE_MODULE_TRAY (lid_module_tray_get_type ())
G_DECLARE_FINAL_TYPE (LidModuleTray, lid_module_tray, LID, MODULE_TRAY, GtkWidget)

GtkWidget *lid_module_tray_new (void);
void lid_module_tray_set_hands (LidModuleTray *self, LidHands *hands);
void lid_module_tray_enter (LidModuleTray *self, const char *text);
GtkWidget *lid_module_tray_find (LidModuleTray *self, const LidModule *module);
const char *lid_module_tray_get_sentence (LidModuleTray *self);
