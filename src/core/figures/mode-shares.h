/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

void lid_mode_shares_compute (const LidSurvey *survey, const guint8 *unusable, LidFigures *figures);
