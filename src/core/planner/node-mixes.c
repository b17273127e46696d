/* SPDX-License-Identifier: GPL-3.0-or-later */
/* node-mixes.c: a node by what it holds, not by which channel holds it.
 *
 * Many populations of a capacity differ only in which channel carries what. The time T hangs on the
 * list of what the channels carry, the cost on how many modules there are of each sort, and hands
 * on that and on the slots that keep what is found. So, where a descent (descent.c) takes long, all
 * that the columns of a node can hold is listed once for the pass: a mix (so many modules of each
 * class), with the least hands and the least T that go together with it. A class is one kind that
 * is found, for only such a kind can stay, or all other kinds of one capacity. Their cost is convex
 * and exact, unless a rule objects to some kinds beside each other; then it is a lower bound.
 *
 * Every population of the pass is a mix of each node, with no fewer hands and no lower T than the
 * list says, and it costs no less than the sum of the mixes. So if the front covers every pair of
 * mixes of a capacity, every target of that capacity is settled (node-mixes-settle.c). A pair that
 * is not covered is put into slots and the checker asked (node-mixes-try.c): mostly it is taken,
 * and so covers itself. Where it is not, the descents decide, as they do where there are more than
 * two nodes, too many lists, or sizes that are not steps of capacity. */
#include "planner/node-mixes.h"

#define MOST_UNITS                                                                                 \
  127u                  /* modules of a class, eight bits; one is left clear (node-mixes-build.c)  \
                         */
#define SUMS_A_STEP 60u /* of building, that are worth a step of descents */
#define LONG_DESCENT 40u
#define WHOLE_WORK 5e5   /* so much of it, and every capacity is listed at once */
#define DEAR_STEPS 1000u /* what the mixes of one capacity cost at most */

/* So many sizes and columns that a list of them fits its bits, and not too many lists. */
static gboolean
may_be_made (const LidPlanSearch *search)
{
  const LidPlanTimes *times = &search->times;

  return search->pass.channel_mib > 0 && search->best.rated && search->judge->has_speed
         && times->known && times->even && times->per_node > 0 && times->per_node < 32
         && times->n_nodes <= 2 && times->sizes->len <= 64 && search->bounds.n_sizes > 0
         && search->floor.least != NULL
         && search->columns->n_free / search->floor.unit <= LID_PLAN_MIX_UNITS;
}

/* What a node has to carry at the least, in steps of capacity, where every other channel of the
 * machine carries the most; so much less than that no population reaches the wish. */
static guint
least_of_node (const LidPlanSearch *search)
{
  const LidPlanTimes *times = &search->times;
  const LidPlanColumn *column = lid_plan_columns_at (search->columns, 0);
  guint unit = (guint)search->bounds.unit_mib, n_columns = search->columns->columns->len;
  guint most = (guint)((search->pass.channel_mib - column->soldered) * column->n_channels / unit)
               * (n_columns - times->per_node);
  guint least = 0;

  while (least < search->bounds.n_mib
         && lid_plan_targets_usable (search, search->columns->soldered + (gint64)least * unit)
                < search->judge->least_mib)
    least++;
  return least > most ? least - most : 0;
}

/* How many lists of channels carry so much. */
static double
count_lists (const LidPlanSearch *search, guint n_sizes, guint least)
{
  const LidPlanColumn *column = lid_plan_columns_at (search->columns, 0);
  guint n = search->times.per_node, n_mib = search->bounds.n_mib;
  g_autofree double *lists = g_new0 (double, (gsize)(n + 1) * n_mib);
  double sum = 0;

  lists[0] = 1;
  for (guint s = 0; s < n_sizes; s++)
    {
      gint64 size = g_array_index (search->times.sizes, gint64, s) - column->soldered;
      guint mib = (guint)(size * column->n_channels / search->bounds.unit_mib);

      for (guint i = 1; i <= n; i++)
        for (guint m = mib; m < n_mib; m++)
          lists[(gsize)i * n_mib + m] += lists[(gsize)(i - 1) * n_mib + m - mib];
    }
  for (guint m = least; m < n_mib; m++)
    sum += lists[(gsize)n * n_mib + m];
  return sum;
}

/* How many sums building them takes, about. */
static double
work_of (const LidPlanSearch *search)
{
  guint n_sizes = 0, n_steps = 0;

  while (n_sizes < search->times.sizes->len
         && g_array_index (search->times.sizes, gint64, n_sizes) <= search->pass.channel_mib)
    n_sizes++;
  if (n_sizes > LID_PLAN_MIXED_SIZES)
    return G_MAXDOUBLE;
  for (guint g = 0; g < search->fillings->n_groups; g++)
    n_steps = MAX (n_steps, search->bounds.steps[g] != NULL ? search->bounds.steps[g]->len : 0);
  return count_lists (search, n_sizes, least_of_node (search)) * n_steps * search->times.per_node;
}

/* Whether every capacity of the pass is listed at once, and from how many steps on. */
static void
measure (const LidPlanSearch *search, LidPlanNodeMixes *mixes)
{
  double work = may_be_made (search) ? work_of (search) : G_MAXDOUBLE;

  mixes->whole = work <= WHOLE_WORK && search->judge->wish->haste != LID_HASTE_EACH;
  mixes->dear = work == G_MAXDOUBLE ? G_MAXUINT64
                : mixes->whole      ? (guint64)(work / SUMS_A_STEP) + 1
                                    : DEAR_STEPS;
}

/**
 * lid_plan_node_mixes_would_help:
 * @search: in a descent
 *
 * Returns: whether the pass took as many steps as it costs to list the mixes, and the capacity at
 *   hand was not asked about yet
 */
gboolean
lid_plan_node_mixes_would_help (const LidPlanSearch *search)
{
  guint64 steps = search->steps - search->descent_from;
  LidPlanNodeMixes *mixes = search->node_mixes;
  gboolean at_once = search->judge->wish->haste != LID_HASTE_USUAL;

  if (search->seek != NULL || mixes->failures >= LID_PLAN_MIX_FAILURES
      || (mixes->tried && !mixes->ready) || (steps < LONG_DESCENT && !at_once))
    return FALSE;
  if (mixes->dear == 0)
    measure (search, mixes);
  if (mixes->dear == G_MAXUINT64)
    return FALSE;
  if (mixes->ready && (mixes->verdicts[search->target_mib] != LID_PLAN_MIX_NOT_ASKED))
    return FALSE;
  return at_once || (mixes->ready && mixes->whole)
         || steps + (mixes->whole ? mixes->steps : 0) >= mixes->dear;
}

/**
 * lid_plan_node_mixes_count_steps:
 * @search: at the end of a descent: what it took is one reason more to list the mixes
 */
void
lid_plan_node_mixes_count_steps (LidPlanSearch *search)
{
  search->node_mixes->steps += search->steps - search->descent_from;
}

static void
make_ready (LidPlanSearch *search, LidPlanNodeMixes *mixes)
{
  mixes->tried = TRUE;
  mixes->ready = may_be_made (search) && lid_plan_node_mixes_sort (search, mixes);
  if (mixes->ready)
    mixes->least = least_of_node (search);
}

/**
 * lid_plan_node_mixes_make:
 * @search: in a pass whose bounds are filled, at a target
 *
 * Lists the mixes of the nodes, of every capacity or as far as they matter to the target's.
 *
 * Returns: whether they are listed
 */
gboolean
lid_plan_node_mixes_make (LidPlanSearch *search)
{
  LidPlanNodeMixes *mixes = search->node_mixes;

  if (!mixes->tried)
    make_ready (search, mixes);
  if (!mixes->ready || (mixes->whole && mixes->made))
    return mixes->ready;
  for (;;)
    {
      lid_plan_node_mixes_drop_nodes (search, mixes);
      if (!mixes->whole && !lid_plan_node_mixes_list_totals (search, mixes))
        return FALSE;
      mixes->made = lid_plan_node_mixes_build (search, mixes);
      if (mixes->made || !mixes->whole)
        return mixes->made;
      mixes->whole = FALSE;
    }
}
