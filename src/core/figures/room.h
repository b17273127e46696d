/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

LidRoom lid_room_compute (const LidSurvey *survey);
