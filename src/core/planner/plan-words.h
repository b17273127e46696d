/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/planner.h"

/* What both faces say of an option, in the reader's language. */
char *lid_plan_words_picks (guint picks);
char *lid_plan_words_cost (const LidPlanOption *option, const char *currency);
char *lid_plan_words_hands (const LidPlanOption *option);
char *lid_plan_words_speed (const LidPlanOption *option);
