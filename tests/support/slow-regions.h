/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/regions.h"

#define SLOW_REGIONS_MOST 24u

typedef struct
{
  LidRegionRule rule;
  guint n;
  LidRegionChannel channels[SLOW_REGIONS_MOST];
} SlowRegionsNode;

void slow_regions_ways (const SlowRegionsNode *node, GArray *regions);
void slow_regions_equal_groups (const SlowRegionsNode *node, GArray *regions);
