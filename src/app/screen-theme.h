/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/theme.h"

#include <gtk/gtk.h>

/* The desktop's looks as the drawing library names them. */
const LidTheme *lid_screen_theme_of (GtkWidget *widget);
double lid_screen_theme_text_scale (GtkWidget *widget);
void lid_screen_theme_follow (GtkWidget *widget, GCallback changed);
