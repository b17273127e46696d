/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/fillings.h"

/* How long it takes to read what the channels of a node carry, and the least it
 * can take: see times.c. */
typedef struct
{
  LidRegionModel model;
  guint ways[LID_BOARD_MAX_CHANNELS + 1]; /* the most that go together of so many channels */
  gboolean known;                         /* a time hangs on nothing but what the columns carry */
  guint n_nodes;
  guint *node_of; /* per column */
  GArray *sizes;  /* gint64: what a channel can carry, rising */
  gint64 *least;  /* per size that is the fullest channel, per step of capacity;
                     NULL: not made */
  guint n_mib;
} LidPlanTimes;

void lid_plan_times_init (LidPlanTimes *times,
                          const LidBoard *board,
                          const LidPlanColumns *columns,
                          const LidPlanFillings *fillings,
                          gint64 unit_mib,
                          guint n_mib);
void lid_plan_times_clear (LidPlanTimes *times);
gint64 lid_plan_times_read (const LidPlanTimes *times, gint64 *channels, guint n_channels);
gint64 lid_plan_times_least (const LidPlanTimes *times, gint64 fullest, guint mib);
