/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* A window without a job: one sentence, one button, and below it what else one may begin with. */
#define LID_TYPE_START_PAGE (lid_start_page_get_type ())
G_DECLARE_FINAL_TYPE (LidStartPage, lid_start_page, LID, START_PAGE, GtkWidget)
