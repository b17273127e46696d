/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/rate.h"

/* Steps in thirds of a MT/s. DDR and DDR2 are here because old machines report them. */
static const LidRate ddr[] = { 600, 800, 1000, 1200 };
static const LidRate ddr2[] = { 1200, 1600, 2000, 2400, 3200 };
static const LidRate ddr3[] = { 2400, 3200, 4000, 4800, 5600, 6400 };
static const LidRate ddr4[] = { 4800, 5600, 6400, 7200, 8000, 8800, 9600 };
static const LidRate ddr5[] = { 9600,  10800, 12000, 13200, 14400, 15600, 16800, 18000,
                                19200, 20400, 21600, 22800, 24000, 25200, 26400, 27600 };

/**
 * lid_rate_steps:
 * @generation: a generation
 * @n_steps: (out): how many steps
 *
 * Returns: (transfer none) (nullable): JEDEC's steps of that generation, rising
 */
const LidRate *
lid_rate_steps (LidGeneration generation, gsize *n_steps)
{
  switch (generation)
    {
    case LID_GENERATION_DDR:
      *n_steps = G_N_ELEMENTS (ddr);
      return ddr;
    case LID_GENERATION_DDR2:
    case LID_GENERATION_DDR2_FB:
      *n_steps = G_N_ELEMENTS (ddr2);
      return ddr2;
    case LID_GENERATION_DDR3:
      *n_steps = G_N_ELEMENTS (ddr3);
      return ddr3;
    case LID_GENERATION_DDR4:
      *n_steps = G_N_ELEMENTS (ddr4);
      return ddr4;
    case LID_GENERATION_DDR5:
      *n_steps = G_N_ELEMENTS (ddr5);
      return ddr5;
    case LID_GENERATION_UNKNOWN:
    case LID_GENERATION_LPDDR:
    case LID_GENERATION_LPDDR2:
    case LID_GENERATION_LPDDR3:
    case LID_GENERATION_LPDDR4:
    case LID_GENERATION_LPDDR5:
    case LID_GENERATION_HBM:
    case LID_GENERATION_HBM2:
    case LID_GENERATION_HBM3:
    case LID_N_GENERATIONS:
    default:
      *n_steps = 0;
      return NULL;
    }
}

/**
 * lid_rate_exact:
 * @mts: a rate in MT/s taken as it stands
 *
 * Returns: that rate; LID_RATE_UNKNOWN for 0 or an absurd value
 */
LidRate
lid_rate_exact (guint mts)
{
  return mts <= LID_RATE_MAX_MTS ? mts * 3 : LID_RATE_UNKNOWN;
}

/**
 * lid_rate_snap:
 * @generation: whose steps; when not told, the steps of every generation are tried
 * @mts: a rate in MT/s as printed somewhere
 *
 * Any value within 2 MT/s of a step is that step (product.md 6, settled reading 5: 667 is
 * 2000/3, 2667 is 8000/3); every other value stays an exact integer.
 *
 * Returns: the rate
 */
LidRate
lid_rate_snap (LidGeneration generation, guint mts)
{
  LidRate written = lid_rate_exact (mts);

  if (written == LID_RATE_UNKNOWN)
    return LID_RATE_UNKNOWN;
  for (guint g = 1; g < LID_N_GENERATIONS; g++)
    {
      gsize n = 0;
      const LidRate *steps;

      if (generation != LID_GENERATION_UNKNOWN && g != (guint)generation)
        continue;
      steps = lid_rate_steps (g, &n);
      for (gsize i = 0; i < n; i++)
        if (ABS ((gint64)steps[i] - (gint64)written) <= 6)
          return steps[i];
    }
  return written;
}

/**
 * lid_rate_mts:
 * @rate: a rate
 *
 * The number as labels and setup screens print it. JEDEC names cut the third off (2666, 1333),
 * save DDR2-667, which is rounded.
 *
 * Returns: whole MT/s, 0 when unknown
 */
guint
lid_rate_mts (LidRate rate)
{
  return rate == 2000 ? 667 : rate / 3;
}

/**
 * lid_rate_is_step:
 * @generation: a generation
 * @rate: a rate
 *
 * Returns: whether JEDEC has that step for that generation
 */
gboolean
lid_rate_is_step (LidGeneration generation, LidRate rate)
{
  gsize n = 0;
  const LidRate *steps = lid_rate_steps (generation, &n);

  for (gsize i = 0; i < n; i++)
    if (steps[i] == rate)
      return TRUE;
  return FALSE;
}
