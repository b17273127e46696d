/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures-case.h"

typedef struct
{
  guint mib, ranks, width, mts;
} PairsSort;

#define PAIRS_UNTOLD 7u     /* its ranks and chips are not told */
#define PAIRS_PERSISTENT 8u /* and nothing can be mirrored with it */
#define PAIRS_PLAIN 8u
#define PAIRS_SORTS 9u

extern const PairsSort pairs_sorts[PAIRS_SORTS];

gboolean pairs_alike (LidAlike level, guint a, guint b);
guint pairs_sort_of (const LidModule *module);
FiguresCase *pairs_machine_draw (GRand *rand);
