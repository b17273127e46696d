/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"
#include "population/population.h"

guint32 lid_additions_kinds (const LidBoard *board, const LidPopulation *population);
gint32 lid_additions_least_room (const LidBoard *board);
