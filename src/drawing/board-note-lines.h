/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/board-geometry.h"

void lid_board_note_lines_place (const LidBoardGeometry *geometry, LidBoardNote *note);
