/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/draw-board.h"

#include <gtk/gtk.h>

/* The ground of the board as it was last painted, piece by piece, so that an edit paints what it
 * changes and nothing else. */
typedef struct _LidBoardGround LidBoardGround;

LidBoardGround *lid_board_ground_new (void);
void lid_board_ground_free (LidBoardGround *self);
void lid_board_ground_clear (LidBoardGround *self);
void lid_board_ground_follow (LidBoardGround *self,
                              const LidBoardGeometry *before,
                              const LidBoardGeometry *now);
void lid_board_ground_snapshot (LidBoardGround *self,
                                GtkSnapshot *snapshot,
                                LidDrawText *text,
                                const LidTheme *theme,
                                const LidBoardGeometry *geometry);
