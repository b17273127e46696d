/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/columns.h"
#include "planner/judge.h"

/* What the cheapest mix of modules is asked of: see cheapest-mix.c. Counts are in units: of as many
 * modules as a column has channels. */
typedef struct
{
  const LidCandidates *candidates;
  const gboolean *barred; /* per kind: not to be used */
  gboolean all_used;      /* what is found is used again */
  guint unit;             /* modules */
  guint places;           /* units there is room for */
  gint64 least_mib;       /* of all of them together */
} LidPlanMixQuestion;

gboolean lid_plan_cheapest_mix (const LidPlanMixQuestion *question, gint64 *cost, guint *counts);

/* cheapest.c */
gboolean
lid_plan_cheapest_find (LidPlanJudge *judge, const LidPlanColumns *columns, LidPlanFront *front);
