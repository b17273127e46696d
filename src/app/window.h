/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/job-model.h"

#include <gtk/gtk.h>

/* The window of one job: its header, the line of figures, and the places of board and tray. */
#define LID_TYPE_WINDOW (lid_window_get_type ())
G_DECLARE_FINAL_TYPE (LidWindow, lid_window, LID, WINDOW, GtkApplicationWindow)

LidWindow *lid_window_new (GtkApplication *application);
LidJobModel *lid_window_get_model (LidWindow *self);
gboolean lid_window_open (LidWindow *self, GFile *file);
gboolean lid_window_open_files (LidWindow *self, const GSList *files);
gboolean lid_window_paste_text (LidWindow *self, const char *text);
gboolean lid_window_save_to (LidWindow *self, GFile *file);
void lid_window_offer_left (LidWindow *self);
void lid_window_keep_now (LidWindow *self);
const char *lid_window_get_figures (LidWindow *self);
const char *lid_window_get_sentence (LidWindow *self);
