/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures-case.h"
#include "planner/planner.h"

/* A random question to the planner, small enough that every population can be judged. */
typedef struct
{
  FiguresCase *machine;    /* the board */
  LidPopulation *as_found; /* nullable */
  LidPopulation *settings;
  GPtrArray *pool; /* LidModule: what goods and found modules are copies of */
  GPtrArray *tray; /* LidModule */
  GArray *goods;   /* LidGood */
  LidPlanQuestion question;
  LidWish wish;
  char *about; /* what it is, for who debugs */
} PlannerCase;

PlannerCase *planner_case_random (guint32 seed, guint most_fillings);
void planner_case_free (PlannerCase *c);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PlannerCase, planner_case_free)

/* One point of a front as the oracle sees it. */
typedef struct
{
  gint64 usable, cost; /* a cost that is not known: G_MAXINT64 */
  guint hands;
  gboolean rated;
  LidRatio speed;
  guint loses, unsure, staying;
} PlannerPoint;

/* planner-oracle.c: all populations, one by one, through the checker */
GArray *planner_oracle_front (const PlannerCase *c, gboolean alike, guint64 *n_judged);
gboolean planner_oracle_alike_matters (const PlannerCase *c);
char *planner_point_to_text (const PlannerPoint *point);
