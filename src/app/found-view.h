/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/job-model.h"

#include <gtk/gtk.h>

/* The machine as found, as a quiet picture beside the board under the hands: nothing in it is
 * clicked, and it says no findings. */
#define LID_TYPE_FOUND_VIEW (lid_found_view_get_type ())
G_DECLARE_FINAL_TYPE (LidFoundView, lid_found_view, LID, FOUND_VIEW, GtkWidget)

GtkWidget *lid_found_view_new (void);
void lid_found_view_set_model (LidFoundView *self, LidJobModel *model);
void lid_found_view_set_lid_off (LidFoundView *self, gboolean lid_off);
