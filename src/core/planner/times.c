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
 * The least T for a capacity: all lists of sizes the channels can carry are
 * tried once, each a list of falling numbers, and for each sum and each fullest
 * channel the least T is kept. With it the bound of a target is as sharp as it
 * can be: that a machine whose channels are uneven is slower is known before
 * any module is chosen. Where there are too many lists, or several nodes, or
 * memory of unequal size is soldered on, the bounds of search.c stand alone. */
#include "planner/times.h"

#include "figures/regions.h"

#define MOST_LISTS 1600000u
#define MOST_CHANNELS 64u

static void
init_ways (LidPlanTimes *times, const LidBoard *board)
{
  LidRegionRule rule = lid_regions_rule (board);

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
  times->known = columns->nodes->len == 0 && columns->columns->len <= MOST_CHANNELS;
  for (guint i = 0; i < columns->columns->len; i++)
    {
      guint node = lid_plan_columns_at (columns, i)->node, at = 0;

      while (at < nodes->len && g_array_index (nodes, guint, at) != node)
        at++;
      if (at == nodes->len)
        g_array_append_val (nodes, node);
      times->node_of[i] = at;
    }
  times->n_nodes = nodes->len;
}

static int
compare_sizes (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return x < y ? -1 : x > y;
}

static void
list_sizes (LidPlanTimes *times, const LidPlanFillings *fillings)
{
  times->sizes = g_array_new (FALSE, FALSE, sizeof (gint64));
  for (guint g = 0; g < fillings->n_groups; g++)
    for (guint f = 0; f < fillings->of_group[g]->len; f++)
      {
        gint64 size = lid_plan_fillings_at (fillings, g, f)->channel_mib;
        gboolean there = FALSE;

        for (guint i = 0; i < times->sizes->len && !there; i++)
          there = g_array_index (times->sizes, gint64, i) == size;
        if (!there)
          g_array_append_val (times->sizes, size);
      }
  g_array_sort (times->sizes, compare_sizes);
}

/* Whether T is the fullest channel whatever the others carry: then there is
 * nothing to try. */
static gboolean
is_plain (const LidPlanTimes *times, guint n_columns)
{
  for (guint live = 1; live <= n_columns; live++)
    if (times->ways[live] != live)
      return FALSE;
  return times->model != LID_REGIONS_EQUAL_GROUPS;
}

static gboolean
are_few (guint n_sizes, guint n_columns)
{
  double lists = 1;

  for (guint i = 1; i <= n_columns; i++)
    lists = lists * (n_sizes - 1 + i) / i;
  return lists <= MOST_LISTS;
}

typedef struct
{
  LidPlanTimes *times;
  guint n_columns, n_channels;
  gint64 unit_mib, soldered;
  gint64 list[MOST_CHANNELS];
} Trial;

/* All lists whose numbers from @at on are at most the size @size. */
static void
try_lists (Trial *trial, guint at, guint size, gint64 sum)
{
  LidPlanTimes *times = trial->times;

  if (at == trial->n_columns)
    {
      gint64 copy[MOST_CHANNELS], time, *least;
      guint fullest = 0, mib;

      for (guint i = 0; i < at; i++)
        copy[i] = trial->list[i];
      while (g_array_index (times->sizes, gint64, fullest) != trial->list[0])
        fullest++;
      mib = (guint)((sum - trial->soldered * trial->n_columns) * trial->n_channels
                    / trial->unit_mib);
      if (mib >= times->n_mib) /* more than these columns hold together */
        return;
      time = lid_plan_times_read (times, copy, at);
      least = &times->least[(gsize)fullest * times->n_mib + mib];
      *least = MIN (*least, time);
      return;
    }
  for (guint s = 0; s <= size; s++)
    {
      trial->list[at] = g_array_index (times->sizes, gint64, s);
      try_lists (trial, at + 1, s, sum + trial->list[at]);
    }
}

/**
 * lid_plan_times_init:
 * @times: (out): to be given back with lid_plan_times_clear()
 * @unit_mib: a step of capacity; every filling is a whole number of them, or no
 * least times are made
 * @n_mib: how many steps there are, that of nothing included
 */
void
lid_plan_times_init (LidPlanTimes *times,
                     const LidBoard *board,
                     const LidPlanColumns *columns,
                     const LidPlanFillings *fillings,
                     gint64 unit_mib,
                     guint n_mib)
{
  guint n = columns->columns->len;
  Trial trial = { .times = times, .n_columns = n, .unit_mib = unit_mib };

  *times = (LidPlanTimes){ .n_mib = n_mib };
  init_ways (times, board);
  init_nodes (times, columns);
  list_sizes (times, fillings);
  if (n == 0 || times->sizes->len == 0 || !times->known || times->n_nodes > 1 || is_plain (times, n)
      || !are_few (times->sizes->len, n))
    return;
  trial.n_channels = lid_plan_columns_at (columns, 0)->n_channels;
  trial.soldered = lid_plan_columns_at (columns, 0)->soldered;
  for (guint i = 0; i < n; i++)
    if (lid_plan_columns_at (columns, i)->soldered != trial.soldered)
      return;
  for (guint i = 0; i < times->sizes->len; i++)
    if ((g_array_index (times->sizes, gint64, i) - trial.soldered) * trial.n_channels % unit_mib
        != 0)
      return;
  times->least = g_new (gint64, (gsize)times->sizes->len * n_mib);
  for (gsize i = 0; i < (gsize)times->sizes->len * n_mib; i++)
    times->least[i] = G_MAXINT64;
  try_lists (&trial, 0, times->sizes->len - 1, 0);
}

void
lid_plan_times_clear (LidPlanTimes *times)
{
  g_clear_pointer (&times->node_of, g_free);
  g_clear_pointer (&times->sizes, g_array_unref);
  g_clear_pointer (&times->least, g_free);
}

/**
 * lid_plan_times_least:
 * @fullest: what the fullest channel carries
 * @mib: the capacity, in steps
 *
 * Returns: no population of that capacity and that fullest channel has a
 * smaller T; G_MAXINT64 where there is none
 */
gint64
lid_plan_times_least (const LidPlanTimes *times, gint64 fullest, guint mib)
{
  if (times->least == NULL)
    return fullest;
  for (guint i = 0; i < times->sizes->len; i++)
    if (g_array_index (times->sizes, gint64, i) == fullest)
      return times->least[(gsize)i * times->n_mib + mib];
  return fullest;
}
