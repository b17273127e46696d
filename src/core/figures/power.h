/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "population/population.h"

/* What modules draw when they are busy, as a range to plan with: half to one and a half of what was
 * published of modules like them. Nobody prints a module's power on it. */
typedef struct
{
  gboolean known;         /* FALSE: nothing is published of such a module */
  gint32 low_mw, high_mw; /* the range */
  gint32 plan_mw;         /* the middle of what was published of such modules, the least of the
                             rows that may hold */
  gint32 most_mw;         /* likewise, the most of them */
  guint32 missing;        /* 1 << LidFact: not told, and would narrow it */
  const char *source;     /* static */
} LidPower;

typedef struct
{
  gint64 low_mw, high_mw; /* of those that are known; differences may be negative */
  guint n;                /* modules counted */
  guint n_not_known;      /* modules nothing is published of */
} LidPowerSum;

LidPower lid_power_module (const LidBoard *board, const LidModule *module, guint setup_mv);
const LidModule *
lid_power_drawn_by (const LidBoard *board, const LidPopulation *population, guint slot);
LidPowerSum lid_power_machine (const LidBoard *board, const LidPopulation *population);
LidPowerSum
lid_power_change (const LidBoard *board, const LidPopulation *before, const LidPopulation *after);
