/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"
#include "inventory/inventory.h"

/* Which slot of a board each device of an inventory is. */
int *lid_slot_map_derived (const LidBoard *board, const LidInventory *inventory);
int *lid_slot_map_new (const LidBoard *board, const LidInventory *inventory, guint *n_unmapped);
void lid_slot_map_place (const LidBoard *board, LidInventory *inventory, const int *slot_of_device);
