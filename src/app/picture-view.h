/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"

#include <gtk/gtk.h>

/* A board with a population on it as a quiet picture, by the same drawing as the board itself:
 * nothing in it can be clicked. What it shows is said by the widget it stands in. */
#define LID_TYPE_PICTURE_VIEW (lid_picture_view_get_type ())
G_DECLARE_FINAL_TYPE (LidPictureView, lid_picture_view, LID, PICTURE_VIEW, GtkWidget)

GtkWidget *lid_picture_view_new (void);
void lid_picture_view_show (LidPictureView *self,
                            LidBoard *board,
                            const LidPopulation *population,
                            const LidPopulation *before);
gboolean lid_picture_view_shows (LidPictureView *self,
                                 const LidBoard *board,
                                 const LidPopulation *population);
void lid_picture_view_set_lid_off (LidPictureView *self, gboolean lid_off);
const LidAssessment *lid_picture_view_get_assessment (LidPictureView *self);
