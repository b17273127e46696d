/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

void lid_mode_demands_judge (const LidSurvey *survey, const guint8 *unusable, LidFigures *figures);
void lid_mode_demands_forget (const LidSurvey *survey, LidFigures *figures);
guint lid_mode_demands_least_ranks (const LidBoardMode *rule, guint spare_ranks);
int lid_mode_demands_compare (LidAlike alike, const LidModule *a, const LidModule *b);
