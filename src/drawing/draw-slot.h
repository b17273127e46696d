/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/draw-text.h"
#include "drawing/slot-look.h"

/* The lines of a slot by their pen. */
typedef enum
{
  LID_SLOT_LINES_HATCH,
  LID_SLOT_LINES_PLAIN,
  LID_SLOT_LINES_BROKEN,
  LID_SLOT_LINES_HEAVY,
  LID_SLOT_LINES_HEAVY_BROKEN,
  LID_N_SLOT_LINES
} LidSlotLines;

/* One slot, wherever it is drawn: first the lines, of all slots at once, then the rest. */
void lid_draw_slot_add_lines (cairo_t *cr,
                              const LidTheme *theme,
                              LidBox box,
                              const LidSlotLook *look,
                              const LidSlotShape *shape,
                              LidSlotLines lines);
void lid_draw_slot_stroke (cairo_t *cr, const LidTheme *theme, LidSlotLines lines);
void lid_draw_slot (cairo_t *cr,
                    LidDrawText *text,
                    const LidTheme *theme,
                    LidBox box,
                    const LidSlotLook *look,
                    const LidSlotShape *shape);
void lid_draw_slot_hatch (cairo_t *cr, const LidTheme *theme, LidBox box, LidHatch hatch);
void lid_draw_slot_mark (cairo_t *cr, const LidTheme *theme, LidBox box, LidMark mark);
void lid_draw_slot_ring (cairo_t *cr, LidDrawText *text, LidBox box, guint number, LidType type);
void lid_draw_slot_outline (cairo_t *cr, LidBox box, double radius);
