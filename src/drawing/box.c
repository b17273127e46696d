/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/box.h"

#include <glib.h>

/**
 * lid_box_unite:
 * @other: a box, or a point (of no size)
 *
 * @box becomes the least that holds both.
 */
void
lid_box_unite (LidBox *box, LidBox other)
{
  double right = MAX (box->x + box->width, other.x + other.width);
  double bottom = MAX (box->y + box->height, other.y + other.height);

  box->x = MIN (box->x, other.x);
  box->y = MIN (box->y, other.y);
  box->width = right - box->x;
  box->height = bottom - box->y;
}
