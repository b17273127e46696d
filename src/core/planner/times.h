/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/bounds.h"

#define LID_PLAN_MOST_CHANNELS 64u /* columns of one machine whose times are worked out */

/* How long it takes to read what the channels of a node carry, and the least it
 * can take: see times.c. */
typedef struct
{
  LidRegionModel model;
  guint ways[LID_BOARD_MAX_CHANNELS + 1]; /* the most that go together of so many channels */
  gboolean known;                         /* a time hangs on nothing but what the columns carry */
  guint n_nodes;
  guint *node_of; /* per column */
  guint per_node; /* columns of each node; 0: not all as many */
  gboolean even;  /* sizes of all columns are whole steps of capacity, as much soldered on each */
  gboolean in_order; /* one node's columns stand after another's, and are not too many */
  GArray *sizes;     /* gint64: what a channel can carry, rising */
  gint64 *least;     /* per size that is the fullest channel, per step of capacity;
                        NULL: not made */
  guint n_rows;      /* so many sizes of it are worked out */
  const LidPlanColumns *columns; /* borrowed */
  gint64 unit_mib;
  guint n_mib;
  gint64 *joint; /* per node, the end included, and size that no channel passes, per step of
                    capacity: the same of the nodes from that one on; NULL: one node, or not made */
} LidPlanTimes;

void lid_plan_times_init (LidPlanTimes *times,
                          const LidBoard *board,
                          const LidPopulation *settings,
                          const LidPlanColumns *columns,
                          gint64 unit_mib,
                          guint n_mib);
void lid_plan_times_narrow (LidPlanTimes *times,
                            const LidPlanColumns *columns,
                            const LidPlanFillings *fillings,
                            const LidPlanPass *pass);
void lid_plan_times_clear (LidPlanTimes *times);
gint64 lid_plan_times_read (const LidPlanTimes *times, gint64 *channels, guint n_channels);
/* least.c */
void lid_plan_least_make (LidPlanTimes *times, const LidPlanColumns *columns);
gint64 lid_plan_least_of (LidPlanTimes *times, gint64 fullest, guint mib);
gint64 lid_plan_least_rest (LidPlanTimes *times, gint64 fullest, guint node, guint mib);
