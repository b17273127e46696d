/* SPDX-License-Identifier: GPL-3.0-or-later */
/* times.c: T, how long reading all of a node takes, in MiB of one channel.
 *
 * regions.c cuts what the channels of a node carry into regions; T is the sum
 * of size ÷ ways. It does not matter which channel carries what: the channels
 * with most left are picked, and where several have the same left, whichever is
 * picked leaves the same numbers behind, so the sum is a matter of the numbers
 * alone. That is why T can be worked out here from a sorted list, without the
 * regions themselves, and why columns.c lets channels of one node change
 * places.
 *
 * The least T that a capacity can have is worked out in least.c. */
#include "planner/times.h"

#include "figures/regions.h"

#include <string.h>

static void
init_ways (LidPlanTimes *times, const LidBoard *board, const LidPopulation *settings)
{
  LidRegionRule rule = lid_regions_rule (board, settings);

  times->model = rule.model;
  for (guint live = 0; live <= LID_BOARD_MAX_CHANNELS; live++)
    {
      times->ways[live] = live;
      if (rule.model == LID_REGIONS_LAYERED || rule.ways == 0)
        continue;
      times->ways[live] = MIN (live, 1);
      for (guint w = 2; w <= MIN (live, 31); w++)
        if ((rule.ways >> w & 1) == 1)
          times->ways[live] = w;
    }
}

/* Moves the numbers that became smaller to their places; the list falls again.
 */
static void
settle (gint64 *left, guint n)
{
  for (guint i = 1; i < n; i++)
    {
      gint64 value = left[i];
      guint at = i;

      for (; at > 0 && left[at - 1] < value; at--)
        left[at] = left[at - 1];
      left[at] = value;
    }
}

/* Equal groups: channels of one size go together, as many as can, until none is
 * left. */
static gint64
read_groups (const LidPlanTimes *times, const gint64 *left, guint n)
{
  gint64 sum = 0;

  for (guint i = 0; i < n && left[i] > 0;)
    {
      guint alike = 1;

      while (i + alike < n && left[i + alike] == left[i])
        alike++;
      for (guint rest = alike; rest > 0; rest -= times->ways[rest])
        sum += left[i];
      i += alike;
    }
  return sum;
}

/**
 * lid_plan_times_read:
 * @times: of a board
 * @channels: (inout): what each channel of one node carries, in any order; used
 * up
 * @n_channels: how many
 *
 * Returns: T of the node, in the unit of @channels
 */
gint64
lid_plan_times_read (const LidPlanTimes *times, gint64 *channels, guint n_channels)
{
  gint64 sum = 0;
  guint live = n_channels;

  settle (channels, n_channels);
  if (times->model == LID_REGIONS_EQUAL_GROUPS)
    return read_groups (times, channels, n_channels);
  for (;;)
    {
      guint ways;
      gint64 least;

      while (live > 0 && channels[live - 1] == 0)
        live--;
      if (live == 0)
        return sum;
      ways = times->ways[live];
      least = channels[ways - 1];
      sum += least;
      for (guint i = 0; i < ways; i++)
        channels[i] -= least;
      if (ways < live)
        settle (channels, live);
    }
}

static void
init_nodes (LidPlanTimes *times, const LidPlanColumns *columns)
{
  g_autoptr (GArray) nodes = g_array_new (FALSE, FALSE, sizeof (guint));

  times->node_of = g_new0 (guint, columns->columns->len + 1);
  times->in_order = columns->columns->len <= LID_PLAN_MOST_CHANNELS;
  times->known = columns->nodes->len == 0 && columns->columns->len <= LID_PLAN_MOST_CHANNELS;
  for (guint i = 0; i < columns->columns->len; i++)
    {
      guint node = lid_plan_columns_at (columns, i)->node, at = 0;

      while (at < nodes->len && g_array_index (nodes, guint, at) != node)
        at++;
      if (at == nodes->len)
        g_array_append_val (nodes, node);
      times->node_of[i] = at;
      times->in_order = times->in_order && (i == 0 || at >= times->node_of[i - 1]);
    }
  times->n_nodes = nodes->len;
}

static int
compare_sizes (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return x < y ? -1 : x > y;
}

/* What a channel can carry in the passes of one rate. */
static GArray *
list_sizes (const LidPlanFillings *fillings, const LidPlanPass *pass)
{
  GArray *sizes = g_array_new (FALSE, FALSE, sizeof (gint64));

  for (guint g = 0; g < fillings->n_groups; g++)
    for (guint f = 0; f < fillings->of_group[g]->len; f++)
      {
        const LidPlanFilling *filling = lid_plan_fillings_at (fillings, g, f);
        gboolean there = !lid_plan_bounds_takes (pass, filling);

        for (guint i = 0; i < sizes->len && !there; i++)
          there = g_array_index (sizes, gint64, i) == filling->channel_mib;
        if (!there)
          g_array_append_val (sizes, filling->channel_mib);
      }
  g_array_sort (sizes, compare_sizes);
  return sizes;
}

/**
 * lid_plan_times_narrow:
 * @times: (inout): its least times become those of the passes of one rate
 * @pass: any of them
 */
void
lid_plan_times_narrow (LidPlanTimes *times,
                       const LidPlanColumns *columns,
                       const LidPlanFillings *fillings,
                       const LidPlanPass *pass)
{
  LidPlanPass any = { pass->rate, pass->any_rate, pass->above, 0 };
  GArray *sizes = list_sizes (fillings, &any);
  gboolean same = times->sizes != NULL && times->sizes->len == sizes->len
                  && memcmp (times->sizes->data, sizes->data, sizes->len * sizeof (gint64)) == 0;

  if (same)
    {
      g_array_unref (sizes);
      return;
    }
  g_clear_pointer (&times->sizes, g_array_unref);
  g_clear_pointer (&times->least, g_free);
  g_clear_pointer (&times->joint, g_free);
  times->sizes = sizes;
  lid_plan_least_make (times, columns);
}

/**
 * lid_plan_times_init:
 * @times: (out): to be given back with lid_plan_times_clear()
 * @settings: (nullable): processors and NUMA split of the plan
 * @unit_mib: a step of capacity; every filling is a whole number of them, or no
 * least times are made
 * @n_mib: how many steps there are, that of nothing included
 */
void
lid_plan_times_init (LidPlanTimes *times,
                     const LidBoard *board,
                     const LidPopulation *settings,
                     const LidPlanColumns *columns,
                     gint64 unit_mib,
                     guint n_mib)
{
  *times = (LidPlanTimes){ .unit_mib = unit_mib, .n_mib = n_mib };
  init_ways (times, board, settings);
  init_nodes (times, columns);
}

void
lid_plan_times_clear (LidPlanTimes *times)
{
  g_clear_pointer (&times->node_of, g_free);
  g_clear_pointer (&times->sizes, g_array_unref);
  g_clear_pointer (&times->least, g_free);
  g_clear_pointer (&times->joint, g_free);
}
