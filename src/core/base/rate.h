/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/generation.h"

/* A data rate, held exactly in thirds of a MT/s, because a third of JEDEC's steps are thirds:
 * 2666 on a label is 8000/3 MT/s. 0 means "not known".
 * Source of the steps: JEDEC JESD79-3F (DDR3), JESD79-4 (DDR4), JESD79-5 (DDR5), as collected in
 * tests/data/rates/data_rates.csv with the source of each row. */
typedef guint32 LidRate;

#define LID_RATE_UNKNOWN 0u
#define LID_RATE_MAX_MTS 100000u

LidRate lid_rate_exact (guint mts);
LidRate lid_rate_snap (LidGeneration generation, guint mts);
guint lid_rate_mts (LidRate rate);
gboolean lid_rate_is_step (LidGeneration generation, LidRate rate);
const LidRate *lid_rate_steps (LidGeneration generation, gsize *n_steps);
