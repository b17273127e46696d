/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/board-geometry.h"

/* The ground of the board in pieces that can be kept from one edit to the next: what looks the same
 * need not be drawn again. Pieces are drawn one after the other, and none reaches out of its box.
 */
typedef enum
{
  LID_PIECE_OUTLINE, /* the board's edge, lid off */
  LID_PIECE_VEIN,    /* a channel's vein */
  LID_PIECE_LEAF,    /* a processor, and its midrib over the veins that spring from it */
  LID_PIECE_CAPTION, /* a channel's words */
  LID_PIECE_NOTE,    /* with its lines to slots */
} LidPieceKind;

typedef struct
{
  LidPieceKind kind;
  guint index; /* of the note, vein or leaf */
  int leaf;    /* the processor it is drawn with, by channel; LID_NOWHERE: none */
  LidBox box;
} LidBoardPiece;

GArray *lid_board_pieces_new (const LidBoardGeometry *geometry);
gboolean lid_board_pieces_same (const LidBoardGeometry *a,
                                const LidBoardPiece *x,
                                const LidBoardGeometry *b,
                                const LidBoardPiece *y);
gboolean
lid_board_pieces_same_slot (const LidBoardGeometry *a, const LidBoardGeometry *b, guint slot);
