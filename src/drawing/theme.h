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
} LidTheme;

const LidTheme *lid_theme_print (void);
LidHatch lid_theme_hatch (LidGrade grade);
LidHatch lid_theme_latch (guint place, guint n_latches);
