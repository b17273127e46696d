/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

void lid_running_rate_compute (const LidSurvey *survey,
                               const LidPopulation *as_found,
                               LidFigures *figures);
