/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lists.c: the lists of capacities of a node that are not too slow.
 *
 * T of a node is known only when all its columns are decided, and most lists of a long descent turn
 * out too slow only then. But lists are few: what the channels carry, in any order. So where a
 * descent takes long, all of them are tried once; those whose T the front does not cover at the
 * target are kept; and a column takes a step only if one of them has what is decided in the node so
 * far. Which channel carries what, with how many hands and of which modules, stays the descent's.
 */
#include "planner/search.h"

#include <string.h>

#define MOST_LISTS 60000u
#define LONG_DESCENT                                                                               \
  40u /* steps; so few that small questions ask for lists too, and tests see them */
#define LISTS_A_STEP 8u   /* to be made, that cost as much as one */
#define LOOKS_A_STEP 100u /* to be looked at */

typedef struct
{
  gint64 time;
  guint mib;
  guint8 count[LID_PLAN_LIST_SIZES];
} List;

static guint
n_sizes (const LidPlanSearch *search)
{
  const GArray *sizes = search->times.sizes;
  guint n = 0;

  while (n < sizes->len && g_array_index (sizes, gint64, n) <= search->pass.channel_mib)
    n++;
  return n;
}

static guint
index_of (const LidPlanSearch *search, gint64 size)
{
  guint i = 0;

  while (g_array_index (search->times.sizes, gint64, i) != size)
    i++;
  return i;
}

static gboolean
are_few (const LidPlanSearch *search)
{
  guint n = n_sizes (search), per_node = search->times.per_node;
  double lists = 1;

  for (guint i = 1; i <= per_node; i++)
    lists = lists * (n - 1 + i) / i;
  return n > 0 && n <= LID_PLAN_LIST_SIZES && lists <= MOST_LISTS;
}

/* All lists whose sizes from @at on are at most the one at @size. */
static void
try_lists (LidPlanSearch *search, guint at, guint size, gint64 *channels, gint64 sum)
{
  guint per_node = search->times.per_node;

  if (at == per_node)
    {
      gint64 copy[LID_PLAN_MOST_CHANNELS];
      const LidPlanColumn *column = lid_plan_columns_at (search->columns, 0);
      List list = { .mib = (guint)((sum - column->soldered * at) * column->n_channels
                                   / search->bounds.unit_mib) };

      for (guint i = 0; i < at; i++)
        list.count[index_of (search, channels[i])]++;
      memcpy (copy, channels, at * sizeof (gint64));
      list.time = lid_plan_times_read (&search->times, copy, at);
      g_array_append_val (search->lists, list);
      return;
    }
  for (guint s = 0; s <= size; s++)
    {
      channels[at] = g_array_index (search->times.sizes, gint64, s);
      try_lists (search, at + 1, s, channels, sum + channels[at]);
    }
}

static int
compare_size (gconstpointer a, gconstpointer b)
{
  const List *x = a, *y = b;

  return (x->mib > y->mib) - (x->mib < y->mib);
}

/* In the order of their capacity, which what is kept of them has too. */
static void
make (LidPlanSearch *search)
{
  gint64 channels[LID_PLAN_MOST_CHANNELS];

  g_array_set_size (search->lists, 0);
  search->lists_made = TRUE;
  try_lists (search, 0, n_sizes (search) - 1, channels, 0);
  g_array_sort (search->lists, compare_size);
  lid_plan_search_goes_on (search, search->lists->len / LISTS_A_STEP);
}

static gboolean
is_too_slow (const LidPlanSearch *search, gint64 time)
{
  LidPlanVector best = search->best;

  best.speed = (LidRatio){ search->target_size * (best.rated ? search->pass.rate : 1),
                           MAX (MAX (time, search->target_time), 1) };
  return lid_plan_descent_is_settled (search, &best);
}

/* The first that is kept of at least so much capacity. */
static guint
first_of (const LidPlanSearch *search, guint mib)
{
  guint from = 0, to = search->lists_kept->len;

  while (from < to)
    {
      guint at = (from + to) / 2, index = g_array_index (search->lists_kept, guint, at);

      if (g_array_index (search->lists, List, index).mib < mib)
        from = at + 1;
      else
        to = at;
    }
  return from;
}

/* Too slow is whatever is no faster than something that is: only the fastest of those is asked. */
static void
choose (LidPlanSearch *search)
{
  gint64 slow = G_MAXINT64, fast = 0;

  g_array_set_size (search->lists_kept, 0);
  for (guint i = 0; i < search->lists->len; i++)
    {
      gint64 time = g_array_index (search->lists, List, i).time;

      if (time > fast && time < slow)
        {
          if (is_too_slow (search, time))
            slow = time;
          else
            fast = time;
        }
    }
  for (guint i = 0; i < search->lists->len; i++)
    if (g_array_index (search->lists, List, i).time < slow)
      g_array_append_val (search->lists_kept, i);
  search->lists_slow = slow;
  search->lists_chosen = TRUE;
}

/**
 * lid_plan_lists_aim:
 * @search: at the beginning of a descent
 */
void
lid_plan_lists_aim (LidPlanSearch *search)
{
  search->lists_chosen = FALSE;
  search->lists_from = search->steps;
  for (guint i = 0; i <= search->columns->columns->len; i++)
    search->lists_valid[i] = FALSE;
}

/**
 * lid_plan_lists_would_help:
 * @search: in a descent
 *
 * Returns: whether it took so long already that it is better begun anew, with the lists
 */
gboolean
lid_plan_lists_would_help (const LidPlanSearch *search)
{
  return !search->lists_chosen && search->steps - search->lists_from >= LONG_DESCENT
         && !lid_plan_node_mixes_may_help (search) && search->pass.channel_mib > 0
         && search->judge->has_speed && search->times.known && search->times.per_node > 0
         && search->times.even && (search->lists_made ? search->lists->len > 0 : are_few (search));
}

/**
 * lid_plan_lists_choose:
 * @search: where they would help
 *
 * Makes those of the pass, if they are not made, and keeps the ones that are fast enough.
 */
void
lid_plan_lists_choose (LidPlanSearch *search)
{
  if (!search->lists_made)
    make (search);
  choose (search);
}

/**
 * lid_plan_lists_enter:
 * @place: in the descent at work
 *
 * Where a node begins: the lists it can have.
 */
void
lid_plan_lists_enter (LidPlanSearch *search, const LidPlanPlace *place)
{
  guint column = place->column;
  GArray *here = search->lists_at[column];
  guint node = search->times.per_node > 0 ? column / search->times.per_node : 0;
  gboolean last;

  if (search->times.per_node == 0 || column % search->times.per_node != 0)
    return;
  search->lists_valid[column] = search->lists_chosen;
  if (!search->lists_valid[column])
    return;
  last = column + search->times.per_node == search->columns->columns->len;
  g_array_set_size (here, 0);
  for (guint i = last ? first_of (search, place->mib) : 0; i < search->lists_kept->len; i++)
    {
      guint index = g_array_index (search->lists_kept, guint, i);
      const List *list = &g_array_index (search->lists, List, index);

      if (list->mib > place->mib)
        break;
      if (last
          || lid_plan_least_rest (&search->times, search->pass.channel_mib, node + 1,
                                  place->mib - list->mib)
                 < search->lists_slow)
        g_array_append_val (here, index);
    }
  lid_plan_search_goes_on (search, here->len / LOOKS_A_STEP);
}

/**
 * lid_plan_lists_take:
 * @column: has its step now
 *
 * Returns: whether some list that is not too slow has what is decided in the node
 */
gboolean
lid_plan_lists_take (LidPlanSearch *search, guint column)
{
  guint group = lid_plan_columns_at (search->columns, column)->group, size, n = 1;
  gint64 carries = g_array_index (search->bounds.steps[group], LidPlanStep, search->picked[column])
                       .channel_mib;
  GArray *here = search->lists_at[column], *next = search->lists_at[column + 1];
  guint first = search->times.per_node == 0 ? 0 : column - column % search->times.per_node;

  search->lists_valid[column + 1] = FALSE;
  if (!search->lists_valid[column])
    return TRUE;
  size = index_of (search, carries);
  for (guint i = first; i < column; i++)
    n += g_array_index (search->bounds.steps[lid_plan_columns_at (search->columns, i)->group],
                        LidPlanStep, search->picked[i])
             .channel_mib
         == carries;
  g_array_set_size (next, 0);
  for (guint i = 0; i < here->len; i++)
    {
      guint index = g_array_index (here, guint, i);

      if (g_array_index (search->lists, List, index).count[size] >= n)
        g_array_append_val (next, index);
    }
  search->lists_valid[column + 1] = TRUE;
  lid_plan_search_goes_on (search, here->len / LOOKS_A_STEP);
  return next->len > 0;
}

/**
 * lid_plan_lists_init:
 * @search: with its columns
 */
void
lid_plan_lists_init (LidPlanSearch *search)
{
  guint n = search->columns->columns->len;

  search->lists = g_array_new (FALSE, FALSE, sizeof (List));
  search->lists_kept = g_array_new (FALSE, FALSE, sizeof (guint));
  search->lists_at = g_new (GArray *, n + 1);
  search->lists_valid = g_new0 (gboolean, n + 2);
  for (guint i = 0; i <= n; i++)
    search->lists_at[i] = g_array_new (FALSE, FALSE, sizeof (guint));
}

void
lid_plan_lists_clear (LidPlanSearch *search)
{
  for (guint i = 0; i <= search->columns->columns->len; i++)
    g_array_unref (search->lists_at[i]);
  g_clear_pointer (&search->lists_at, g_free);
  g_clear_pointer (&search->lists_valid, g_free);
  g_clear_pointer (&search->lists, g_array_unref);
  g_clear_pointer (&search->lists_kept, g_array_unref);
}
