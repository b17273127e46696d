/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner-large.h"

/* The least money for the wished capacity as an integer program, by GLPK; G_MAXINT64: none. */
gint64 planner_glpk_cheapest (const PlannerLarge *q);
void planner_glpk_done (void);
