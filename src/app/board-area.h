/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/slot-button.h"
#include "drawing/draw-board.h"

/* The board of a job: the drawing, with a widget over each slot and each note. Lies in a scrolled
 * window. Geometry and ink come from the drawing library; here are focus, zoom and the way from a
 * click to the hands. */
#define LID_TYPE_BOARD_AREA (lid_board_area_get_type ())
G_DECLARE_FINAL_TYPE (LidBoardArea, lid_board_area, LID, BOARD_AREA, GtkWidget)

GtkWidget *lid_board_area_new (void);
void lid_board_area_set_hands (LidBoardArea *self, LidHands *hands);
LidHands *lid_board_area_get_hands (LidBoardArea *self);
void lid_board_area_set_zoom (LidBoardArea *self, double zoom);
double lid_board_area_get_zoom (LidBoardArea *self);
void lid_board_area_set_lid_off (LidBoardArea *self, gboolean lid_off);
gboolean lid_board_area_get_lid_off (LidBoardArea *self);
GtkWidget *lid_board_area_get_slot (LidBoardArea *self, guint slot);
const LidBoardGeometry *lid_board_area_get_geometry (LidBoardArea *self);

gboolean lid_board_area_focus_notes (LidBoardArea *self);

/* For the widgets that lie on it. */
const LidPopulation *lid_board_area_get_population (LidBoardArea *self);
const LidChanges *lid_board_area_get_changes (LidBoardArea *self);
void lid_board_area_repaint_slot (LidBoardArea *self, int slot);
gboolean lid_board_area_is_next (LidBoardArea *self, guint slot);
const LidBoardNote *lid_board_area_find_note (LidBoardArea *self, const LidFinding *finding);
void lid_board_area_point_at (LidBoardArea *self, int note);
gboolean lid_board_area_is_pointed_at (LidBoardArea *self, guint slot);
gboolean lid_board_area_come_closer (LidBoardArea *self, guint slot);
void lid_board_area_snapshot_slot (LidBoardArea *self,
                                   GtkSnapshot *snapshot,
                                   guint slot,
                                   LidSlotFlags flags);
