/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/fillings.h"

#define LID_PLAN_OUT_OF_REACH (G_MAXINT64 / 4)
#define LID_PLAN_SIZES 12u /* different capacities of modules that are told apart */

/* What the columns from one on can at best cost, for so much capacity and so
 * many hands. */
typedef struct
{
  const LidPlanColumns *columns;
  LidPlanFillings *fillings;
  const LidCandidates *candidates;
  gint64 unit_mib;
  guint unit_hands;
  guint n_mib, n_hands; /* numbers of steps, the one of zero included */
  guint n_filled;       /* so many of capacity are in the tables */
  guint n_tables;
  guint n_sizes;    /* different capacities; 0: too many */
  guint8 *size_of;  /* per kind */
  gint64 *table[3]; /* the last by the prices of lean.c, made when it is asked for */
  GArray **steps;   /* per group: LidPlanStep of the pass, rising by size, then by
                       hands */
  gint32 *found;    /* per column and step of capacity: as many modules of found kinds as it and the
                       later ones can hold; -1: out of reach */
  gint32 *forced;   /* likewise, as many of them as they hold at the least */
  gint64 owned;     /* what is added too much in the first table: see bounds.c */
} LidPlanBounds;

/* Fillings of a group that carry the same on each channel for as many hands. */
typedef struct
{
  gint64 channel_mib;
  guint mib, hands;                /* of the column, in steps of the bounds */
  gint64 cost[3];                  /* the least of them; see lean.c for the last */
  guint found;                     /* modules of kinds that are found, at most */
  guint forced;                    /* likewise, at the least */
  guint8 least_of[LID_PLAN_SIZES]; /* modules of each size in one channel */
  guint8 most_of[LID_PLAN_SIZES];
  LidRate told;    /* of whichever member: it runs no faster; G_MAXUINT32: not known */
  LidRate closes;  /* of all members: the rate is known beside one that is no higher */
  GArray *members; /* guint: indices of the fillings, the cheapest first */
} LidPlanStep;

/* What one pass of the search looks at. */
typedef struct
{
  LidRate rate;       /* the bound: no population at hand runs faster */
  gboolean any_rate;  /* fillings of lower rates are taken too */
  LidRate above;      /* and none that runs no faster than this: see rated.c */
  gint64 channel_mib; /* whose largest channel carries so much, no more; 0: any */
} LidPlanPass;

void lid_plan_bounds_init (LidPlanBounds *bounds,
                           const LidPlanColumns *columns,
                           LidPlanFillings *fillings,
                           const LidCandidates *candidates,
                           gboolean no_hands);
void lid_plan_bounds_clear (LidPlanBounds *bounds);
void lid_plan_bounds_begin (LidPlanBounds *bounds, const LidPlanPass *pass);
void lid_plan_bounds_fill (LidPlanBounds *bounds, guint n_mib);
void lid_plan_bounds_fill_lean (LidPlanBounds *bounds);
guint64 lid_plan_bounds_work (const LidPlanBounds *bounds);

/* steps.c */
gboolean lid_plan_bounds_takes (const LidPlanPass *pass, const LidPlanFilling *filling);
GArray *lid_plan_steps_of (const LidPlanBounds *bounds,
                           const LidPlanPass *pass,
                           const LidPlanColumn *column);

static inline gsize
lid_plan_bounds_index (const LidPlanBounds *bounds, guint column, guint mib, guint hands)
{
  return ((gsize)column * bounds->n_mib + mib) * bounds->n_hands + hands;
}

/* Steps of capacity, rounded up. */
static inline guint
lid_plan_bounds_mib (const LidPlanBounds *bounds, const LidPlanFilling *filling)
{
  return (guint)((filling->mib + bounds->unit_mib - 1) / bounds->unit_mib);
}

static inline guint
lid_plan_bounds_hands (const LidPlanBounds *bounds, const LidPlanFilling *filling)
{
  return filling->hands / bounds->unit_hands;
}
