/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"
#include "inventory/inventory.h"

/* A board made of what a technician taught about one machine, to be found again by its
 * fingerprint. */
LidBoard *lid_board_teach (const LidInventory *inventory,
                           const GPtrArray *order,
                           const char *pattern,
                           const char *name);
