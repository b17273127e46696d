/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A part of a drawing, in whatever the drawing counts: pixels, or mm of paper. */
typedef struct
{
  double x, y, width, height;
} LidBox;

void lid_box_unite (LidBox *box, LidBox other);
