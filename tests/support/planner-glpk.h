/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner-large.h"

/* The least money for the wished capacity as an integer program, by GLPK; G_MAXINT64: none. */
#define PLANNER_GLPK_SECONDS 20 /* after so long it gives up */

gint64 planner_glpk_cheapest (const PlannerLarge *q);
gint64 planner_glpk_placed (const PlannerLarge *q);
gint64 planner_glpk_even (const PlannerLarge *q, LidRate rate, guint slots);
void planner_glpk_done (void);
