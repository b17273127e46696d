/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/measure.h"

#include <math.h>
#include <string.h>

/* A measure of our own stands in for type (every glyph 0.58 of
 * the em wide, which is wider than the sans faces the sheet asks for), so the test needs no font.
 */
#define GLYPH 0.58
#define LINE 1.21

static inline double
fake_width (gpointer data, LidType type, const char *text)
{
  return (double)g_utf8_strlen (text, -1) * type.pt * LID_MM_PER_PT * GLYPH;
}

static inline double
fake_height (gpointer data, LidType type, const char *text, double width)
{
  double glyph = type.pt * LID_MM_PER_PT * GLYPH;
  double per_line = MAX (1, floor (width / glyph));
  double at = 0, lines = 1;

  for (const char *word = text; *word != 0;)
    {
      const char *end = strchr (word, ' ');
      double n = end != NULL ? (double)(end - word) + 1 : (double)strlen (word);

      if (at > 0 && at + n > per_line + 1)
        {
          lines++;
          at = 0;
        }
      lines += floor (n / (per_line + 2));
      at += n;
      word += (gsize)n;
    }
  return lines * type.pt * LID_MM_PER_PT * LINE;
}

static const LidMeasure fake = { fake_width, fake_height, NULL };
