/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures-case.h"
#include "planner/planner.h"

/* The boards of issue 5 with a shelf: for benches, and for tests that are too large for brute
 * force. Boards, labels and prices are invented; the labels follow JEDEC's grammar. */
typedef struct
{
  const char *name;
  guint sockets, controllers, channels, slots, kinds;
  const char *ways;
  gint64 wish_gb;
  gboolean sockets_free;
} PlannerLargeBoard;

typedef struct
{
  FiguresCase *machine; /* its population is as found */
  GPtrArray *modules;   /* LidModule: one of each kind */
  GArray *goods;        /* LidGood */
  LidPlanQuestion question;
  LidWish wish;
} PlannerLarge;

extern const PlannerLargeBoard planner_large_boards[5];

PlannerLarge *planner_large_new (const PlannerLargeBoard *board, guint n_rows, gboolean empty);
PlannerLarge *planner_large_random (guint32 seed);
void planner_large_free (PlannerLarge *q);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PlannerLarge, planner_large_free)
