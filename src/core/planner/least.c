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
  gint64 unit_mib, soldered;
  gint64 list[LID_PLAN_MOST_CHANNELS];
} Trial;

/* All lists whose numbers from @at on are at most the size @size. */
static void
try_lists (Trial *trial, guint at, guint size, gint64 sum)
{
  LidPlanTimes *times = trial->times;

  if (at == trial->n_columns)
    {
      gint64 copy[LID_PLAN_MOST_CHANNELS], time, *least;
      guint fullest = 0, mib;

      for (guint i = 0; i < at; i++)
        copy[i] = trial->list[i];
      while (g_array_index (times->sizes, gint64, fullest) != trial->list[0])
        fullest++;
      mib = (guint)((sum - trial->soldered * at) * trial->n_channels / trial->unit_mib);
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
may_be_made (const LidPlanTimes *times, const Trial *trial)
{
  return times->known && times->even && !is_plain (times, trial->n_columns)
         && are_few (times->sizes->len, trial->n_columns);
}

static gboolean
is_even (const LidPlanTimes *times, const LidPlanColumns *columns, const Trial *trial)
{
  if (times->sizes->len == 0)
    return FALSE;
  for (guint i = 0; i < columns->columns->len; i++)
    if (lid_plan_columns_at (columns, i)->soldered != trial->soldered)
      return FALSE;
  for (guint i = 0; i < times->sizes->len; i++)
    if ((g_array_index (times->sizes, gint64, i) - trial->soldered) * trial->n_channels
            % trial->unit_mib
        != 0)
      return FALSE;
  return TRUE;
}

/* The least of a fullest channel becomes the least of one that is at most so full. */
static void
accumulate (LidPlanTimes *times)
{
  for (gsize i = times->n_mib; i < (gsize)times->sizes->len * times->n_mib; i++)
    times->least[i] = MIN (times->least[i], times->least[i - times->n_mib]);
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

static void
make_joint (LidPlanTimes *times)
{
  gsize n = (gsize)times->sizes->len * times->n_mib;

  times->joint = g_new (gint64, n * (times->n_nodes + 1));
  for (guint size = 0; size < times->sizes->len; size++)
    for (guint i = 0; i < times->n_mib; i++)
      joint_at (times, times->n_nodes, size)[i] = i == 0 ? 0 : G_MAXINT64;
  accumulate (times);
  for (guint node = times->n_nodes; node-- > 0;)
    for (guint size = 0; size < times->sizes->len; size++)
      join (times, node, size);
}

/**
 * lid_plan_least_make:
 * @times: (inout): everything else is there
 */
void
lid_plan_least_make (LidPlanTimes *times, const LidPlanColumns *columns)
{
  Trial trial = { .times = times,
                  .n_columns = columns_of_node (times, columns->columns->len),
                  .unit_mib = times->unit_mib };

  times->per_node = trial.n_columns;
  if (trial.n_columns == 0)
    return;
  trial.n_channels = lid_plan_columns_at (columns, 0)->n_channels;
  trial.soldered = lid_plan_columns_at (columns, 0)->soldered;
  times->even = is_even (times, columns, &trial);
  if (!may_be_made (times, &trial)
      || (times->n_nodes > 1
          && (guint64)times->n_mib * times->n_mib * times->sizes->len * times->n_nodes
                 > MOST_SHARES))
    return;
  times->least = g_new (gint64, (gsize)times->sizes->len * times->n_mib);
  for (gsize i = 0; i < (gsize)times->sizes->len * times->n_mib; i++)
    times->least[i] = G_MAXINT64;
  try_lists (&trial, 0, times->sizes->len - 1, 0);
  if (times->n_nodes > 1)
    make_joint (times);
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
lid_plan_least_rest (const LidPlanTimes *times, gint64 fullest, guint node, guint mib)
{
  if (times->joint == NULL)
    return 0;
  for (guint i = 0; i < times->sizes->len; i++)
    if (g_array_index (times->sizes, gint64, i) == fullest)
      return joint_at (times, node, i)[mib];
  return G_MAXINT64;
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
lid_plan_least_of (const LidPlanTimes *times, gint64 fullest, guint mib)
{
  if (times->joint != NULL)
    return MAX (fullest, lid_plan_least_rest (times, fullest, 0, mib));
  if (times->least == NULL)
    return fullest;
  for (guint i = 0; i < times->sizes->len; i++)
    if (g_array_index (times->sizes, gint64, i) == fullest)
      return times->least[(gsize)i * times->n_mib + mib];
  return G_MAXINT64;
}
