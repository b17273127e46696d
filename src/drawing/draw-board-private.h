/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/draw-board.h"

double lid_draw_board_caption_baseline (const LidVein *vein);
void lid_draw_board_leaf_baselines (const LidPlacedLeaf *leaf, double *title, double *under);
void lid_draw_board_source (cairo_t *cr, LidColour colour);
void
lid_draw_board_hatch (cairo_t *cr, const LidTheme *theme, LidBox box, LidGrade grade, double scale);
