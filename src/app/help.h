/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "help/explain.h"

#include <gtk/gtk.h>

/* F1: the widget that has the keyboard is asked what it is, then those it lies in. */
void lid_help_set_words (GtkWidget *widget, const char *words);
GPtrArray *lid_help_of_words (const char *words);
GPtrArray *lid_help_of_slot (const GPtrArray *findings, guint slot);
gboolean lid_help_show (GtkWidget *focus);
