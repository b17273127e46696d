/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"

/* What people call each slot of a board. */
void lid_slot_names_give (LidBoard *board);
gboolean lid_slot_names_is_counted (const LidBoard *board, guint slot);
const char *lid_slot_names_caveat (const LidBoard *board);
