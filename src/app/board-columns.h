/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/board-pieces.h"

/* The notes beside the board stand in columns: the two margins, and what is between them. The notes
 * of a column are one picture, painted again when any of them looks otherwise. Each by itself would
 * be damage in so many pieces that GTK gives up counting and paints the whole board (30 rectangles,
 * GTK 4.8). */
#define LID_BOARD_COLUMNS 3u

gboolean lid_board_columns_shared (const LidBoardGeometry *geometry,
                                   const LidBoardPiece *note,
                                   const LidBoardPiece *piece);
void lid_board_columns_count (const GArray *pieces, const LidBoardGeometry *geometry, guint *n);
void lid_board_columns_drop_changed (const LidBoardGeometry *geometry,
                                     const GArray *pieces,
                                     GPtrArray *nodes,
                                     const guint *n_before);
