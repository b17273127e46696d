/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* The program: one window a job. */
#define LID_TYPE_APPLICATION (lid_application_get_type ())
G_DECLARE_FINAL_TYPE (LidApplication, lid_application, LID, APPLICATION, GtkApplication)

GtkApplication *lid_application_new (void);
