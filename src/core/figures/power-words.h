/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/power.h"

char *lid_power_words_range (const LidPowerSum *sum);
char *lid_power_words_change (const LidPowerSum *change);
