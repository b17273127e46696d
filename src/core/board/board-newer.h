/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"

LidBoard *lid_board_newer_find (const LidBoard *embedded, GPtrArray **differences);
