/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/check.h"

/* Remedies: what to do about a finding, in words and where possible as moves. */
void lid_remedy_say (const LidCheck *check, LidFinding *finding, char *text);
void lid_remedy_move (const LidCheck *check, LidFinding *finding, int from, int to);
void lid_remedy_take_out (const LidCheck *check, LidFinding *finding, const LidSlotSet *slots);
LidRemedy *lid_remedy_new_setting (const char *text);
LidRemedy *lid_remedy_new_moves (const LidCheck *check, const GArray *moves);
void lid_remedy_reword (LidRemedy *remedy, const char *text);
void lid_remedy_drop_moves (LidRemedy *remedy);
LidPopulation *lid_remedy_apply (const LidRemedy *remedy, const LidPopulation *population);
void lid_remedy_free (LidRemedy *remedy);
