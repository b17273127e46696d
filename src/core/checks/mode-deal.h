/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/check.h"

gboolean lid_mode_deal_out (const LidCheck *check, const LidSlotSet *slots, int *to);
