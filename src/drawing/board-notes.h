/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/board-geometry.h"

void lid_board_notes_place (LidBoardGeometry *geometry,
                            const LidAssessment *assessment,
                            const LidMeasure *measure,
                            double text_scale);
