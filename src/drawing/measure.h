/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/box.h"
#include "drawing/theme.h"

/* What a layout needs to know of type, so that it can be made and tested without drawing. */
typedef enum
{
  LID_ALIGN_LEFT,
  LID_ALIGN_CENTRE,
  LID_ALIGN_RIGHT,
} LidAlign;

/* @width: of one line, mm. @height: of the text broken into lines of at most the given width, mm.
 */
typedef struct
{
  double (*width) (gpointer data, LidType type, const char *text);
  double (*height) (gpointer data, LidType type, const char *text, double width);
  gpointer data;
} LidMeasure;

static inline double
lid_measure_width (const LidMeasure *measure, LidType type, const char *text)
{
  return measure->width (measure->data, type, text);
}

static inline double
lid_measure_height (const LidMeasure *measure, LidType type, const char *text, double width)
{
  return measure->height (measure->data, type, text, width);
}

/* The room a line takes, whatever is in it. */
static inline double
lid_measure_line (LidType type)
{
  return type.pt * LID_MM_PER_PT * 1.25;
}
