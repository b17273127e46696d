/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/check.h"

/* What the rules about memory modes share: is a demand not met, where, and how to say it. */
gboolean lid_mode_refusal_met (const LidCheck *check, LidDemand demand, LidSlotSet *slots);
LidFinding *lid_mode_refusal_add (LidCheck *check, const LidSlotSet *slots, char *reason);
void lid_mode_refusal_ask (LidCheck *check, LidDemand demand);
