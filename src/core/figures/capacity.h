/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

gboolean lid_capacity_counts (const LidSurvey *survey, const guint8 *unusable, guint slot);
gint64 lid_capacity_fitted (const LidSurvey *survey);
void lid_capacity_compute (const LidSurvey *survey, const guint8 *unusable, LidFigures *figures);
