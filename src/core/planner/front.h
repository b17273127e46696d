/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/candidates.h"

/* One population with what options are compared by. Speeds are exact: S × rate
 * ÷ T, in channels times thirds of a MT/s, where reading all S MiB once takes
 * as long as reading T MiB from one channel (bandwidth.c; its constants are the
 * same for all populations and left out). Where the rate is not known the rate
 * is left out too, and the two sorts of speed are never compared: a population
 * whose rate is not known neither beats nor is beaten by one whose rate is
 * (settled reading 11 compares such plans by whole ÷ channel peak among each
 * other). */
typedef struct
{
  gint64 usable_mib;
  gint64 cost; /* LID_COST_UNKNOWN: a module without a price */
  guint hands;
  gboolean rated;
  LidRatio speed;
} LidPlanVector;

typedef struct
{
  LidPlanVector vector;
  gint64 capacity_mib;
  LidRatio whole_mbs;
  LidRate running;
  guint loses, unsure, staying, bins, empty_slots;
  guint picks; /* LidPick */
  int *kinds;  /* per slot; LID_NOWHERE: empty, or what is there and stays */
} LidPlanEntry;

typedef struct
{
  LidWishWhat what;
  guint n_slots;
  GPtrArray *entries; /* LidPlanEntry */
  guint last;         /* the one that covered last: mostly it does so again */
} LidPlanFront;

void lid_plan_entry_free (LidPlanEntry *entry);
LidPlanEntry *lid_plan_entry_copy (const LidPlanEntry *entry, guint n_slots);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidPlanEntry, lid_plan_entry_free)
void lid_plan_front_init (LidPlanFront *front, LidWishWhat what, guint n_slots);
void lid_plan_front_clear (LidPlanFront *front);
gboolean lid_plan_front_covers (LidPlanFront *front, const LidPlanVector *best);
gboolean lid_plan_front_add (LidPlanFront *front, const LidPlanEntry *entry);
gint64 lid_plan_front_bar (const LidPlanFront *front,
                           const LidPlanEntry *entry,
                           const LidPlanVector *best);
int lid_plan_front_compare_ties (const LidPlanEntry *a, const LidPlanEntry *b, guint n_slots);
gboolean lid_plan_front_same (LidWishWhat what, const LidPlanVector *a, const LidPlanVector *b);
void lid_plan_front_sort (LidPlanFront *front);
