/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

/* Modules a channel is asked about besides what is fitted: as many, of these kinds and ranks. */
typedef struct
{
  guint filled;     /* modules on the channel, in all */
  guint32 more;     /* 1 << LidKind of those added; 0: none is added */
  guint more_ranks; /* of each added; 0: not told */
  guint32 voltages; /* the machine may run at any of these; 0: at any there is */
} SlowChannel;

guint32 slow_rates_voltages (const LidBoard *board, const LidPopulation *population);
LidChannelRate slow_rates_channel (const LidBoard *board,
                                   const LidPopulation *population,
                                   guint channel,
                                   const SlowChannel *asked);
guint slow_rates_fitted (const LidBoard *board, const LidPopulation *population, guint channel);

void slow_limits_compute (const LidBoard *board,
                          const LidPopulation *population,
                          const LidPopulation *as_found,
                          gboolean evidence,
                          LidFigures *out);
