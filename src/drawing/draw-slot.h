/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/draw-text.h"
#include "drawing/slot-look.h"

/* One slot, wherever it is drawn. */
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
