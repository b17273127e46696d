/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Its visible children share the room evenly: beside each other where it is wide enough for two
 * boards, else one above the other. Children are added by the template. */
#define LID_TYPE_SIDES_VIEW (lid_sides_view_get_type ())
G_DECLARE_FINAL_TYPE (LidSidesView, lid_sides_view, LID, SIDES_VIEW, GtkWidget)
