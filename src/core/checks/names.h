/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/check.h"

/* Slots, channels and processors by name, for the sentences of rules. */
char *lid_names_slots (const LidCheck *check, const LidSlotSet *slots);
char *lid_names_channels (const LidCheck *check, const LidSlotSet *channels);
char *lid_names_sockets (const LidCheck *check, guint32 sockets);
