/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A second writing of the region models, from the pseudocode of shared/facts/population.md 4.2 to
 * 4.4 and not from src/core: no short cuts, everything counted anew at every step. */
#include "slow-regions.h"

void
slow_regions_ways (const SlowRegionsNode *node, GArray *regions)
{
  gint64 rem[SLOW_REGIONS_MOST];

  for (guint i = 0; i < node->n; i++)
    rem[i] = node->channels[i].mib;
  for (;;)
    {
      gboolean picked[SLOW_REGIONS_MOST] = { FALSE };
      guint live = 0, ways = 0;
      gint64 least = G_MAXINT64;
      LidRegion region;

      for (guint i = 0; i < node->n; i++)
        live += rem[i] > 0 ? 1 : 0;
      if (live == 0)
        return;
      for (guint x = 1; x <= live; x++)
        if (node->rule.model == LID_REGIONS_LAYERED || (node->rule.ways >> x & 1) == 1)
          ways = x;
      for (guint k = 0; k < ways; k++)
        {
          int best = -1;
          guint best_of_controller = 0;

          for (guint i = 0; i < node->n; i++)
            {
              guint of_controller = 0;

              if (picked[i] || rem[i] == 0)
                continue;
              for (guint j = 0; j < node->n; j++)
                of_controller
                    += picked[j] && node->channels[j].controller == node->channels[i].controller;
              if (best < 0 || rem[i] > rem[best]
                  || (rem[i] == rem[best] && of_controller < best_of_controller))
                {
                  best = (int)i;
                  best_of_controller = of_controller;
                }
            }
          picked[best] = TRUE;
        }
      for (guint i = 0; i < node->n; i++)
        if (picked[i] && rem[i] < least)
          least = rem[i];
      for (guint i = 0; i < node->n; i++)
        rem[i] -= picked[i] ? least : 0;
      region = (LidRegion){ .mib = least * ways, .ways = ways, .channels = 0 };
      for (guint i = 0; i < node->n; i++)
        region.channels |= (guint64)(picked[i] ? 1 : 0) << i;
      g_array_append_val (regions, region);
    }
}

void
slow_regions_equal_groups (const SlowRegionsNode *node, GArray *regions)
{
  gint64 below = G_MAXINT64;

  for (;;)
    {
      gint64 capacity = 0;
      guint n = 0;

      for (guint i = 0; i < node->n; i++)
        if (node->channels[i].mib < below)
          capacity = MAX (capacity, node->channels[i].mib);
      if (capacity == 0)
        return;
      for (guint i = 0; i < node->n; i++)
        n += node->channels[i].mib == capacity ? 1 : 0;
      while (n > 0)
        {
          LidRegion region = { .mib = capacity, .ways = 1, .channels = 0 };

          for (guint x = 2; x <= n; x++)
            if ((node->rule.ways >> x & 1) == 1)
              region = (LidRegion){ .mib = capacity * x, .ways = x, .channels = 0 };
          g_array_append_val (regions, region);
          n -= region.ways;
        }
      below = capacity;
    }
}
