/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* All words and rules, to look through. */
GtkWidget *lid_words_window_new (void);
