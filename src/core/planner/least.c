/* SPDX-License-Identifier: GPL-3.0-or-later */
/* least.c: the least T that a capacity can have.
 *
 * Of one node all lists of sizes its channels can carry are tried once, each a list of falling
 * numbers, and for each sum and each fullest channel the least T is kept. With it the bound of a
 * target is as sharp as it can be: that a machine whose channels are uneven is slower is known
 * before any module is chosen.
 *
 * Several nodes are read at once, and the slowest counts: for the nodes from one on and each
 * fullest channel, the least over all ways to share a capacity out among them. Nodes of as many
 * channels share one table of lists.
 *
 * Where there are too many lists, nodes of unequal numbers of channels, or memory of unequal size
 * soldered on, the bounds of search.c stand alone. */
#include "planner/times.h"

#define MOST_LISTS 1600000u
#define MOST_SHARES 60000000u

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
  gint64 soldered;
  gint64 list[LID_PLAN_MOST_CHANNELS];
} Trial;

static void
try_lists (Trial *trial, guint at, guint size, gint64 sum, gint64 *row)
{
  LidPlanTimes *times = trial->times;

  if (at == trial->n_columns)
    {
      gint64 copy[LID_PLAN_MOST_CHANNELS], time;
      guint mib = (guint)((sum - trial->soldered * at) * trial->n_channels / times->unit_mib);

      if (mib >= times->n_mib) /* more than these columns hold together */
        return;
      for (guint i = 0; i < at; i++)
        copy[i] = trial->list[i];
      time = lid_plan_times_read (times, copy, at);
      row[mib] = MIN (row[mib], time);
      return;
    }
  for (guint s = 0; s <= size; s++)
    {
      trial->list[at] = g_array_index (times->sizes, gint64, s);
      try_lists (trial, at + 1, s, sum + trial->list[at], row);
    }
}

/* How many columns each node has; 0: not all as many. */
static guint
columns_of_node (const LidPlanTimes *times, guint n_columns)
{
  guint n = times->n_nodes > 0 ? n_columns / times->n_nodes : 0;

  if (times->n_nodes == 0 || n_columns % times->n_nodes != 0)
    return 0;
  for (guint i = 0; i < n_columns; i++)
    if (times->node_of[i] != i / n) /* one node's columns after another's */
      return 0;
  return n;
}

static gboolean
is_even (const LidPlanTimes *times, const LidPlanColumns *columns)
{
  const LidPlanColumn *first = lid_plan_columns_at (columns, 0);

  if (times->sizes->len == 0)
    return FALSE;
  for (guint i = 0; i < columns->columns->len; i++)
    if (lid_plan_columns_at (columns, i)->soldered != first->soldered)
      return FALSE;
  for (guint i = 0; i < times->sizes->len; i++)
    if ((g_array_index (times->sizes, gint64, i) - first->soldered) * first->n_channels
            % times->unit_mib
        != 0)
      return FALSE;
  return TRUE;
}

static gint64 *
joint_at (const LidPlanTimes *times, guint node, guint size)
{
  return times->joint + ((gsize)node * times->sizes->len + size) * times->n_mib;
}

static void
join (LidPlanTimes *times, guint node, guint size)
{
  const gint64 *alone = times->least + (gsize)size * times->n_mib;
  const gint64 *rest = joint_at (times, node + 1, size);
  gint64 *to = joint_at (times, node, size);

  for (guint i = 0; i < times->n_mib; i++)
    to[i] = G_MAXINT64;
  for (guint a = 0; a < times->n_mib; a++)
    for (guint b = 0; alone[a] < G_MAXINT64 && a + b < times->n_mib; b++)
      to[a + b] = MIN (to[a + b], MAX (alone[a], rest[b]));
}

/* Of several nodes not each has the fullest channel: the least of one becomes that of a channel
 * that is at most so full. */
static void
join_row (LidPlanTimes *times, guint size)
{
  gint64 *row = times->least + (gsize)size * times->n_mib;

  for (guint i = 0; i < times->n_mib; i++)
    {
      joint_at (times, times->n_nodes, size)[i] = i == 0 ? 0 : G_MAXINT64;
      if (size > 0)
        row[i] = MIN (row[i], row[i - (gint64)times->n_mib]);
    }
  for (guint node = times->n_nodes; node-- > 0;)
    join (times, node, size);
}

/* The rows of the table up to one fullest channel: the fuller it is, the more lists there are, and
 * not every pass comes to need them. */
static void
make_rows (LidPlanTimes *times, guint size)
{
  Trial trial = { .times = times,
                  .n_columns = times->per_node,
                  .n_channels = lid_plan_columns_at (times->columns, 0)->n_channels,
                  .soldered = lid_plan_columns_at (times->columns, 0)->soldered };

  for (; times->n_rows <= size; times->n_rows++)
    {
      gint64 *row = times->least + (gsize)times->n_rows * times->n_mib;

      for (guint i = 0; i < times->n_mib; i++)
        row[i] = G_MAXINT64;
      trial.list[0] = g_array_index (times->sizes, gint64, times->n_rows);
      try_lists (&trial, 1, times->n_rows, trial.list[0], row);
      if (times->joint != NULL)
        join_row (times, times->n_rows);
    }
}

/**
 * lid_plan_least_make:
 * @times: (inout): everything else is there; the table is made row by row when it is asked for
 * @columns: borrowed
 */
void
lid_plan_least_make (LidPlanTimes *times, const LidPlanColumns *columns)
{
  gsize n = (gsize)times->sizes->len * times->n_mib;

  times->columns = columns;
  times->per_node = columns_of_node (times, columns->columns->len);
  times->n_rows = 0;
  if (times->per_node == 0)
    return;
  times->even = is_even (times, columns);
  if (!times->known || !times->even || is_plain (times, times->per_node)
      || !are_few (times->sizes->len, times->per_node)
      || (times->n_nodes > 1 && (guint64)n * times->n_mib * times->n_nodes > MOST_SHARES))
    return;
  times->least = g_new (gint64, n);
  if (times->n_nodes > 1)
    times->joint = g_new (gint64, n * (times->n_nodes + 1));
}

/* The row of a fullest channel; -1: no channel carries that. */
static int
row_of (LidPlanTimes *times, gint64 fullest)
{
  for (guint i = 0; i < times->sizes->len; i++)
    if (g_array_index (times->sizes, gint64, i) == fullest)
      {
        make_rows (times, i);
        return (int)i;
      }
  return -1;
}

/**
 * lid_plan_least_rest:
 * @fullest: no channel carries more
 * @node: of the nodes from this one on
 * @mib: their capacity, in steps
 *
 * Returns: they have no smaller T; G_MAXINT64 where they cannot carry that; 0 where it is not known
 */
gint64
lid_plan_least_rest (LidPlanTimes *times, gint64 fullest, guint node, guint mib)
{
  int row;

  if (times->joint == NULL)
    return 0;
  row = row_of (times, fullest);
  return row >= 0 ? joint_at (times, node, (guint)row)[mib] : G_MAXINT64;
}

/**
 * lid_plan_least_of:
 * @fullest: what the fullest channel carries
 * @mib: the capacity, in steps
 *
 * Returns: no population of that capacity and that fullest channel has a
 * smaller T; G_MAXINT64 where there is none
 */
gint64
lid_plan_least_of (LidPlanTimes *times, gint64 fullest, guint mib)
{
  int row;

  if (times->joint != NULL)
    return MAX (fullest, lid_plan_least_rest (times, fullest, 0, mib));
  if (times->least == NULL)
    return fullest;
  row = row_of (times, fullest);
  return row >= 0 ? times->least[(gsize)row * times->n_mib + mib] : G_MAXINT64;
}
