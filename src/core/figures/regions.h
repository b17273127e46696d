/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

/* One channel of a node: what it carries and which controller it hangs on. */
typedef struct
{
  gint64 mib;
  int controller; /* from 1; 0: not told */
  guint number;   /* in its socket, from 0 */
} LidRegionChannel;

/* How a board forms regions, put so that no region needs to look at the board again. */
typedef struct
{
  LidRegionModel model;
  guint32 ways;     /* bits 1 << ways; not looked at by the layered model */
  gboolean matched; /* channels of several controllers go together only as many of each */
} LidRegionRule;

LidRegionRule lid_regions_rule (const LidBoard *board, const LidPopulation *population);
void lid_regions_form (LidRegionRule rule,
                       const LidRegionChannel *channels,
                       guint n_channels,
                       GArray *regions);
