/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* A menu beside a widget that may be scrolled out of sight. */
void lid_popover_place_show (GtkPopover *popover);
void lid_popover_place_install (void);
void lid_popover_place_leave (GtkPopover *popover);
void lid_popover_place_close (GtkWidget *widget);
void lid_popover_place_close_latest (GtkWidget *widget);
