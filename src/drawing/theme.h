/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"

/* Ink, hatch, weight and type of everything that is drawn. Lengths are millimetres, type sizes
 * points. Paper is its own design (look.md): black on white, no grey under 40 %, grades told by
 * pattern and word, never by colour. */
#define LID_MM_PER_PT (25.4 / 72.0)
#define LID_NAME_LEAST_PT 14.0 /* slot names: product.md 10 */

typedef enum
{
  LID_HATCH_NONE,
  LID_HATCH_DOTS,
  LID_HATCH_DIAGONAL,
  LID_HATCH_CROSS,
  LID_HATCH_ACROSS,
  LID_HATCH_UPRIGHT,
  LID_HATCH_SOLID,
} LidHatch;

typedef struct
{
  double pt;
  gboolean bold;
} LidType;

typedef struct
{
  double red, green, blue;
} LidColour;

/* Themes of the screen. On paper there is only one, lid_theme_print(). */
typedef enum
{
  LID_THEME_LIGHT,
  LID_THEME_DARK,
  LID_THEME_HIGH_CONTRAST,
  LID_THEME_HIGH_CONTRAST_DARK,
  LID_N_THEMES
} LidThemeName;

typedef struct
{
  const char *family;
  LidColour ink;
  LidColour paper;
  double thin;     /* leave alone, rules of forms */
  double line;     /* what is there */
  double heavy;    /* what the hand does */
  double hatch;    /* distance of hatch lines */
  double dash[2];  /* broken outline: empty, idle */
  double radius;   /* of a slot's corners */
  double fullvein; /* width of a vein that carries its channel's whole rate */
  /* Screen only. What is text in one of these stands on @paper or @face. */
  LidColour soft;     /* words beside the main ones */
  LidColour face;     /* of a slot with something in it */
  LidColour outline;  /* of slots that stay alone */
  LidColour leaf;     /* carried bandwidth and what can be done, nothing else */
  LidColour grade[4]; /* by LidGrade */
} LidTheme;

const LidTheme *lid_theme_print (void);
const LidTheme *lid_theme_screen (LidThemeName name);
double lid_theme_contrast (LidColour a, LidColour b);
LidColour lid_theme_hue (const char *hue, LidColour if_none);

/* On the screen the unit is a pixel at scale 1, and type is as high as it is told. */
static inline LidType
lid_theme_px (double px, gboolean bold)
{
  return (LidType){ px / LID_MM_PER_PT, bold };
}
LidHatch lid_theme_hatch (LidGrade grade);
LidHatch lid_theme_latch (guint place, guint n_latches);
