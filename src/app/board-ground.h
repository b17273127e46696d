/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/draw-board.h"

#include <gtk/gtk.h>

/* The ground of the board as it was last painted, piece by piece, so that an edit paints what it
 * changes and nothing else. */
typedef struct _LidBoardGround LidBoardGround;

typedef enum
{
  LID_BOARD_GROUND_ALL = -4,
  LID_BOARD_GROUND_UNDER = -3, /* what belongs to no processor */
  LID_BOARD_GROUND_OVER = -2,  /* notes */
} LidBoardGroundPart;

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
                                const LidBoardGeometry *geometry,
                                int part);
void lid_board_ground_drop_leaf (LidBoardGround *self, int leaf);
gboolean lid_board_ground_append_leaf (LidBoardGround *self,
                                       GtkSnapshot *snapshot,
                                       const LidBoardGeometry *geometry,
                                       guint leaf);
void lid_board_ground_keep_leaf (LidBoardGround *self, GtkSnapshot *drawn, guint leaf);
