/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/judge.h"

LidPlanOption *lid_plan_option_new (const LidPlanJudge *judge, const LidPlanEntry *entry);
void lid_plan_picks_choose (LidPlan *plan, const LidWish *wish);
