/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/plan-ask.h"
#include "stock/reserved.h"

/* What taking a plan puts by on the shelf, so that two jobs do not take the same modules. */
char *lid_plan_shelf_job (const LidJob *job);
GPtrArray *lid_plan_shelf_wanted (const LidPlanAsk *ask, const LidPlanOption *option);
