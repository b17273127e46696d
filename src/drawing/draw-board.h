/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/board-pieces.h"
#include "drawing/draw-text.h"

typedef enum
{
  LID_SLOT_PLAIN = 0,
  LID_SLOT_FOCUS = 1 << 0,    /* has the keyboard */
  LID_SLOT_SELECTED = 1 << 1, /* chosen */
  LID_SLOT_HOVER = 1 << 2,    /* under the pointer, or a drop would land here */
} LidSlotFlags;

/* The ground first, then each slot; both in the geometry's pixels. A slot's own widget translates
 * by its place first. @text must have been made with the same @theme (its family). */
void lid_draw_board_ground (cairo_t *cr,
                            LidDrawText *text,
                            const LidTheme *theme,
                            const LidBoardGeometry *geometry);
void lid_draw_board_piece (cairo_t *cr,
                           LidDrawText *text,
                           const LidTheme *theme,
                           const LidBoardGeometry *geometry,
                           const LidBoardPiece *piece);
void lid_draw_board_slot (cairo_t *cr,
                          LidDrawText *text,
                          const LidTheme *theme,
                          const LidBoardGeometry *geometry,
                          guint slot,
                          LidSlotFlags flags);
