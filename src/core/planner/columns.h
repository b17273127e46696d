/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/candidates.h"

/* Channels that are decided together: one, or, where sockets are filled alike,
 * the one in the same place of each fitted socket. All of them have as many
 * free slots. */
typedef struct
{
  guint n_channels;
  guint *channels; /* board channel indices */
  guint n_slots;   /* free slots of each */
  guint *slots;    /* board slot indices: channel by channel, by position */
  guint group;     /* columns of one group may change places: see columns.c */
  guint node;      /* what its first channel is read with: socket and NUMA node */
  guint32 place;   /* of its first slot in the order of fitting */
  gint64 soldered; /* MiB a channel of it carries whatever is planned */
} LidPlanColumn;

typedef struct
{
  GArray *columns; /* LidPlanColumn, group by group; in a group the last in the
                      order first */
  guint n_groups;
  guint n_channels;  /* of each column */
  guint n_free;      /* free slots in all */
  gint64 soldered;   /* MiB that are there whatever is planned */
  gint64 most_fixed; /* the most a channel that is in no column carries, MiB */
  GArray *nodes;     /* guint: node of each that is no column, its memory fixed */
  gboolean alike;    /* fitted sockets are filled alike */
} LidPlanColumns;

LidPlanColumns *lid_plan_columns_new (const LidPlanQuestion *question,
                                      const LidCandidates *candidates,
                                      gboolean alike);
void lid_plan_columns_free (LidPlanColumns *columns);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidPlanColumns, lid_plan_columns_free)
gboolean lid_plan_columns_sockets_match (const LidPlanQuestion *question,
                                         const LidCandidates *candidates);

static inline const LidPlanColumn *
lid_plan_columns_at (const LidPlanColumns *columns, guint column)
{
  return &g_array_index (columns->columns, LidPlanColumn, column);
}
