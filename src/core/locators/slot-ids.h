/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "inventory/inventory.h"

void lid_slot_ids_give (LidInventory *inventory);
