/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"
#include "drawing/sheet.h"

/* The page of a board: its picture by channel and lid off, then all its definition says, for a
 * person who has to check it. A sheet like the others: screen, PDF, SVG and PNG draw it alike. */
LidSheet *lid_board_page_new (const LidBoard *board, LidPaper paper, const LidMeasure *measure);
