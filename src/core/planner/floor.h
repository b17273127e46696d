/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/bounds.h"

/* What so much capacity costs at the least, wherever the modules go: see floor.c. */
typedef struct
{
  const LidPlanBounds *bounds;
  gint64 *least;   /* per step of capacity and number of modules, at most so many; NULL: not made */
  gint64 *of_pass; /* likewise, with what the pass at work allows */
  gint64 *layers;  /* tables kind after kind, the last that are kept */
  guint n_kept, n_layers;
  guint *of_layer;        /* the kind each adds */
  guint *most;            /* per kind: so many the pass allows, in units */
  guint n_mib, n_modules; /* one more than the most modules, or hands */
  guint n_places;         /* modules there is room for, in units */
  guint most_modules;     /* that the pass allows, in units */
  guint unit;             /* modules come in so many at a time */
  guint at_hand;          /* found modules, also in slots that have to be cleared */
  gboolean by_hands;      /* hands tell how many modules there are at most */
  gboolean of_hands;      /* counts hands, not modules */
  gboolean all_used;      /* what is found is used again */
} LidPlanFloor;

void lid_plan_floor_init (LidPlanFloor *floor,
                          const LidPlanBounds *bounds,
                          const LidWish *wish,
                          gboolean of_hands);
void lid_plan_floor_clear (LidPlanFloor *floor);
void lid_plan_floor_narrow (LidPlanFloor *floor);
gint64 lid_plan_floor_cost (const LidPlanFloor *floor, gboolean of_pass, guint mib, guint hands);
gboolean lid_plan_floor_mix (const LidPlanFloor *floor, guint mib, guint hands, guint *counts);
