/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-words.h"

#include <stddef.h>

const char *const lid_board_words_grades[] = { "note", "unsure", "loses", "stops", NULL };
const char *const lid_board_words_stops[] = { "nothing", "slots", "machine", NULL };
const char *const lid_board_words_scopes[] = { "machine", "socket", "channel", "module", NULL };
const char *const lid_board_words_mixes[]
    = { "kinds",      "ecc",   "widths",     "stacks", "densities",
        "capacities", "ranks", "check-bits", "rates",  NULL };
const char *const lid_board_words_whats[] = { "module", "channel", "socket", "machine", NULL };
const char *const lid_board_words_bases[] = { "listed", "bench-proven", "assumed", NULL };
const char *const lid_board_words_counts[] = { "logical", "label", NULL };
const char *const lid_board_words_regions[] = { "layered", "ways", "equal-groups", NULL };
const char *const lid_board_words_own[] = { "silent", "penalty", "required", NULL };
const char *const lid_board_words_stacks[] = { "none", "dual", "3ds", NULL };
const char *const lid_board_words_modes[]
    = { "mirrored", "partly-mirrored", "spared", "paired", NULL };
const char *const lid_board_words_alike[] = { "capacity", "organisation", "part", NULL };
const char *const lid_board_words_not_with[]
    = { "numa-split", "mirrored", "partly-mirrored", "spared", "paired", NULL };
