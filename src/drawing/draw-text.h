/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/measure.h"
#include "drawing/theme.h"

#include <pango/pangocairo.h>

/* The one helper for text: shapes a text once, keeps it, and uses it to measure and to draw at any
 * size, so that paper and screen break lines at the same place. Units are millimetres of user
 * space. */
typedef struct _LidDrawText LidDrawText;

LidDrawText *lid_draw_text_new (const LidTheme *theme);
void lid_draw_text_free (LidDrawText *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidDrawText, lid_draw_text_free)

LidMeasure lid_draw_text_measure (LidDrawText *self);
double lid_draw_text_width (LidDrawText *self, LidType type, const char *text);
double lid_draw_text_height (LidDrawText *self, LidType type, const char *text, double width);
void lid_draw_text_box (
    LidDrawText *self, cairo_t *cr, LidBox box, LidType type, LidAlign align, const char *text);
void lid_draw_text_fit (LidDrawText *self,
                        cairo_t *cr,
                        LidBox box,
                        double baseline,
                        LidType type,
                        LidAlign align,
                        const char *text);
