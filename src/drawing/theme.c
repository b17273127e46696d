/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/theme.h"

static const LidTheme print = {
  .family = "Inter, Cantarell, Noto Sans, DejaVu Sans, sans-serif",
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
