/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

LidChannelRate
lid_rate_table_look_up (const LidSurvey *survey, guint channel, guint filled, guint32 voltages);
guint32 lid_rate_table_voltages (const LidSurvey *survey);
