/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/draw-text.h"
#include "drawing/sheet.h"

/* One drawing for screen, print dialog, PDF, SVG and PNG. */
void lid_draw_sheet_page (cairo_t *cr, LidDrawText *text, const LidSheet *sheet, guint page);
