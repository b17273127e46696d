/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"
#include "inventory/inventory.h"

/* A board made from an inventory whose places were set by locators/ or by teaching. */
LidBoard *lid_board_derive (const LidInventory *inventory, const GPtrArray *order);
