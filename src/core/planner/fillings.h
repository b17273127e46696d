/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/columns.h"
#include "planner/judge.h"

#define LID_PLAN_DEPTH 8u /* free slots of one channel the planner can fill */

/* One way to fill the free slots of every channel of a column. Counts are of
 * the whole column. */
typedef struct
{
  int kinds[LID_PLAN_DEPTH]; /* per free slot by position; LID_NOWHERE: empty */
  guint twin; /* index of the one that stands for all with these modules in another order */
  guint n_modules;
  gint64 mib;         /* the column's, without what is soldered */
  gint64 channel_mib; /* one channel's, what is soldered included */
  LidRate rate;       /* no population with this filling runs faster */
  gboolean unrated;   /* a population with it may have no known rate */
  LidRate closes;     /* but has one beside a rate that is no higher; G_MAXUINT32: rated */
  guint loses;        /* findings that lose with it alone in the machine */
  guint hands;        /* its share of the hands; see fillings.c */
  gint64 cost[3];     /* its share of lower bounds of the cost; see bounds.c, lean.c */
} LidPlanFilling;

typedef struct
{
  GArray **of_group; /* LidPlanFilling, the least capacity first; the empty one
                        leads */
  guint n_groups;
  gboolean complete;     /* nothing was left out for its number */
  gboolean unrated;      /* some filling may leave the rate not known */
  LidRate closes;        /* the least rate at which one of those closes; see rated.c */
  gboolean unrated_base; /* so may what stays in the machine */
} LidPlanFillings;

LidPlanFillings *lid_plan_fillings_new (LidPlanJudge *judge, const LidPlanColumns *columns);
void lid_plan_fillings_free (LidPlanFillings *fillings);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidPlanFillings, lid_plan_fillings_free)
void lid_plan_fillings_put (const LidPlanColumn *column, const LidPlanFilling *filling, int *kinds);
gboolean lid_plan_fillings_voltage_matters (const LidBoard *board);

/* rated.c */
LidRate lid_plan_rated_closes (const LidPlanJudge *judge, const int *kinds);

/* twins.c */
void lid_plan_twins_find (GArray *fillings);

static inline const LidPlanFilling *
lid_plan_fillings_at (const LidPlanFillings *fillings, guint group, guint index)
{
  return &g_array_index (fillings->of_group[group], LidPlanFilling, index);
}
