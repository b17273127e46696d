/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/theme.h"

#include <math.h>

#define HEX(rgb)                                                                                   \
  {                                                                                                \
    (((rgb) >> 16) & 0xff) / 255.0, (((rgb) >> 8) & 0xff) / 255.0, ((rgb)&0xff) / 255.0            \
  }
#define FAMILY "Inter, Cantarell, Noto Sans, DejaVu Sans, sans-serif"
#define SCREEN                                                                                     \
  .family = FAMILY, .thin = 1, .line = 1.2, .heavy = 2.4, .hatch = 5, .dash = { 4, 3 },            \
  .radius = 5, .fullvein = 9

static const LidTheme print = {
  .family = FAMILY,
  .ink = { 0, 0, 0 },
  .paper = { 1, 1, 1 },
  .thin = 0.2,
  .line = 0.3,
  .heavy = 0.65,
  .hatch = 1.0,
  .dash = { 1.2, 0.9 },
  .radius = 0.9,
  .fullvein = 1.5,
};

/* Grades: note, unsure, loses, stops. Hues after Okabe and Ito (2008), "Color Universal Design":
 * reddish purple, blue or sky blue, orange, vermilion; darkened or lightened until text in them
 * reaches 4.5:1 (WCAG 2.1, 1.4.3), in high contrast 7:1 (1.4.6). */
static const LidTheme screens[LID_N_THEMES] = {
  [LID_THEME_LIGHT]
  = { SCREEN, .ink = HEX (0x1c2421), .paper = HEX (0xfbfaf4), .soft = HEX (0x5b625d),
      .face = HEX (0xffffff), .outline = HEX (0x5b625d), .leaf = HEX (0x2b6a4c),
      .grade = { HEX (0x92507a), HEX (0x00639b), HEX (0x8a5c00), HEX (0xb04400) } },
  [LID_THEME_DARK]
  = { SCREEN, .ink = HEX (0xeeece4), .paper = HEX (0x1d211f), .soft = HEX (0xabb1ab),
      .face = HEX (0x2a302d), .outline = HEX (0x939a94), .leaf = HEX (0x74c69d),
      .grade = { HEX (0xdc9dc0), HEX (0x67bdef), HEX (0xecab1f), HEX (0xff8f52) } },
  [LID_THEME_HIGH_CONTRAST]
  = { SCREEN, .ink = HEX (0x000000), .paper = HEX (0xffffff), .soft = HEX (0x2e2e2e),
      .face = HEX (0xffffff), .outline = HEX (0x000000), .leaf = HEX (0x004d2c),
      .grade = { HEX (0x6e2f57), HEX (0x004a78), HEX (0x654200), HEX (0x852f00) } },
  [LID_THEME_HIGH_CONTRAST_DARK]
  = { SCREEN, .ink = HEX (0xffffff), .paper = HEX (0x000000), .soft = HEX (0xdcdcdc),
      .face = HEX (0x000000), .outline = HEX (0xffffff), .leaf = HEX (0x8fe3b8),
      .grade = { HEX (0xf0b8d7), HEX (0x8fd3ff), HEX (0xffc64a), HEX (0xffab7a) } },
};

/* From light to dark, told apart in black and white, and none of them a grade's pattern. */
static const LidHatch latches[] = {
  LID_HATCH_NONE,
  LID_HATCH_ACROSS,
  LID_HATCH_UPRIGHT,
  LID_HATCH_SOLID,
};

/**
 * lid_theme_print:
 *
 * Returns: (transfer none): the theme of paper
 */
const LidTheme *
lid_theme_print (void)
{
  return &print;
}

/**
 * lid_theme_screen:
 *
 * Returns: (transfer none): a theme of the screen. To use the desktop's own type, copy it and set
 *   the copy's family.
 */
const LidTheme *
lid_theme_screen (LidThemeName name)
{
  return &screens[name < LID_N_THEMES ? name : LID_THEME_LIGHT];
}

static double
linear (double c)
{
  return c <= 0.04045 ? c / 12.92 : pow ((c + 0.055) / 1.055, 2.4);
}

static double
luminance (LidColour c)
{
  return 0.2126 * linear (c.red) + 0.7152 * linear (c.green) + 0.0722 * linear (c.blue);
}

/**
 * lid_theme_contrast:
 *
 * Returns: the contrast ratio of two colours, 1 to 21, as WCAG 2.1 defines it
 */
double
lid_theme_contrast (LidColour a, LidColour b)
{
  double x = luminance (a), y = luminance (b);

  return (MAX (x, y) + 0.05) / (MIN (x, y) + 0.05);
}

/**
 * lid_theme_hue:
 * @hue: (nullable): "#rrggbb", as boards keep the colour of a latch
 * @if_none: when it is not told
 *
 * Returns: the colour
 */
LidColour
lid_theme_hue (const char *hue, LidColour if_none)
{
  guint64 rgb;

  if (hue == NULL || hue[0] != '#'
      || !g_ascii_string_to_unsigned (hue + 1, 16, 0, 0xffffff, &rgb, NULL))
    return if_none;
  return (LidColour)HEX ((guint)rgb);
}

/**
 * lid_theme_hatch:
 * @grade: of a finding
 *
 * Returns: its pattern, on screen and paper alike
 */
LidHatch
lid_theme_hatch (LidGrade grade)
{
  switch (grade)
    {
    case LID_GRADE_STOPS:
      return LID_HATCH_CROSS;
    case LID_GRADE_LOSES:
      return LID_HATCH_DIAGONAL;
    case LID_GRADE_UNSURE:
      return LID_HATCH_DOTS;
    case LID_GRADE_NOTE:
    default:
      return LID_HATCH_NONE;
    }
}

/**
 * lid_theme_latch:
 * @place: of the latch colour among those of the board, from 0 = lightest
 * @n_latches: how many colours the board has
 *
 * Returns: the shading that stands for it on paper
 */
LidHatch
lid_theme_latch (guint place, guint n_latches)
{
  if (n_latches <= 1)
    return LID_HATCH_NONE;
  if (n_latches == 2)
    return place == 0 ? LID_HATCH_NONE : LID_HATCH_SOLID;
  if (place + 1 == n_latches)
    return LID_HATCH_SOLID;
  return latches[MIN (place, G_N_ELEMENTS (latches) - 2)];
}
