/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/bounds.h"

/* What so much capacity costs at the least, wherever the modules go: see floor.c. */
typedef struct
{
  gint64 *least; /* per step of capacity and number of modules, at most so many; NULL: not made */
  guint n_mib, n_modules;
  guint unit;        /* modules come in so many at a time */
  guint at_hand;     /* found modules, also in slots that have to be cleared */
  gboolean by_hands; /* hands tell how many modules there are at most */
} LidPlanFloor;

void lid_plan_floor_init (LidPlanFloor *floor, const LidPlanBounds *bounds, const LidWish *wish);
void lid_plan_floor_clear (LidPlanFloor *floor);
gint64 lid_plan_floor_cost (const LidPlanFloor *floor, guint mib, guint hands);
