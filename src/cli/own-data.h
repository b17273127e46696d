/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"
#include "facts/parts.h"

/* What belongs to the user and is read once a run. */
const LidParts *lid_own_parts (void);
gboolean lid_own_parts_learn (const LidModule *module);
gboolean lid_own_board (const char *name, LidBoard **board);
