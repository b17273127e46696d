/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/check.h"

/* What rule-rank-limit.c and rule-modules-limit.c share: walk the modules a row speaks of, channel
 * by channel in the order of fitting, and collect the surplus. */
typedef struct
{
  LidSlotSet surplus;  /* slots, from the first that passes the limit */
  LidSlotSet channels; /* where */
  guint most;          /* the largest sum met */
} LidRankRows;

void
lid_rank_rows_walk (LidCheck *check, const LidRankLimit *row, gboolean by_ranks, LidRankRows *out);
