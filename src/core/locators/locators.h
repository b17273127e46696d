/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "inventory/inventory.h"

/* Reads socket, controller, channel and position out of the two strings a firmware gives each slot,
 * and gives every slot a name that is unique in the machine. Ground knowledge:
 * shared/facts/locators.md (patterns of 5,048 real machines). It never claims what the strings do
 * not state: "channel not told" is a normal state. */
void lid_locators_place (LidInventory *inventory);
gboolean lid_locators_channels_told (const LidInventory *inventory);
