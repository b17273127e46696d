/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "help/explain.h"

#include <gtk/gtk.h>

/* What a word means or why the checker speaks, beside the widget that was asked. */
#define LID_TYPE_HELP_POPOVER (lid_help_popover_get_type ())
G_DECLARE_FINAL_TYPE (LidHelpPopover, lid_help_popover, LID, HELP_POPOVER, GtkPopover)

GtkWidget *lid_help_popover_new (void);
void lid_help_popover_fill (LidHelpPopover *self, const GPtrArray *explanations);
LidHelpPopover *lid_help_popover_show (GtkWidget *at, const GPtrArray *explanations);
const char *lid_help_popover_get_text (LidHelpPopover *self);
