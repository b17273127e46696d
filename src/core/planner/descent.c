/* SPDX-License-Identifier: GPL-3.0-or-later */
/* descent.c: from a target down to how much each column carries.
 *
 * Paragraphs 4 and 5 of search.c. First it is only decided what each column
 * carries and with how many hands (a step of bounds.c), not which modules that
 * is: many fillings carry the same, and the time T is a matter of capacities
 * alone. In a group the numbers of steps never fall from one column to the
 * next, and they are sorted by capacity, so the empty columns of a group come
 * first: how many channels are in use is known early, and with it the width of
 * the regions. When every column is decided T is exact, and only what is not
 * covered then goes on to choice.c. */
#include "planner/search.h"

/**
 * lid_plan_descent_is_done:
 * @search: at a target
 * @best: bounds of some populations
 *
 * Returns: whether all of them are settled; where a tie is sought, whether none
 * can be one
 */
gboolean
lid_plan_descent_is_done (const LidPlanSearch *search, const LidPlanVector *best)
{
  const LidPlanVector *seek = search->seek;

  if (seek == NULL)
    return lid_plan_front_covers (search->front, best);
  if (best->hands > seek->hands || best->cost > seek->cost)
    return TRUE;
  if (search->front->what == LID_WISH_CHEAPEST)
    return FALSE;
  return seek->rated != best->rated || lid_ratio_compare (best->speed, seek->speed) < 0
         || (search->front->what == LID_WISH_SPEND && best->usable_mib < seek->usable_mib);
}

/**
 * lid_plan_descent_is_settled:
 * @best: likewise, of populations of the target's capacity
 *
 * As above, but more is known where what is found may leave: the fewer hands, the dearer. It is
 * settled if it is so for every number of hands by itself.
 */
gboolean
lid_plan_descent_is_settled (const LidPlanSearch *search, const LidPlanVector *best)
{
  const LidPlanFloor *floor = &search->hands_floor;
  LidPlanVector here = *best;

  if (lid_plan_descent_is_done (search, best))
    return TRUE;
  if (floor->least == NULL)
    return FALSE;
  for (; here.hands < floor->n_modules * floor->unit; here.hands++)
    {
      gint64 cost = lid_plan_floor_cost (floor, search->begun, search->target_mib, here.hands);

      here.cost = MAX (best->cost, MIN (cost, LID_COST_UNKNOWN));
      if (cost < LID_PLAN_OUT_OF_REACH && !lid_plan_descent_is_done (search, &here))
        return FALSE;
      if (cost <= best->cost)
        return TRUE;
    }
  return TRUE;
}

static const GArray *
steps_at (const LidPlanSearch *search, guint column)
{
  return search->bounds.steps[lid_plan_columns_at (search->columns, column)->group];
}

/* Hands on top of those of the fillings: see lid_plan_lean_surplus(); here all kinds together. */
static guint
surplus_of (const LidPlanSearch *search, const LidPlanPlace *next)
{
  const LidPlanBounds *bounds = &search->bounds;
  guint forced
      = next->forced + (guint)bounds->forced[(gsize)next->column * bounds->n_mib + next->mib];

  return forced > search->n_found ? forced - search->n_found : 0;
}

static gboolean
may_go_on (LidPlanSearch *search, const LidPlanPlace *next)
{
  const LidPlanBounds *bounds = &search->bounds;
  gsize at = lid_plan_bounds_index (bounds, next->column, next->mib, next->hands);
  LidPlanVector best = search->best;
  gint64 cost = next->shares[0] + bounds->table[0][at] - bounds->owned;
  gint32 found = bounds->found[(gsize)next->column * bounds->n_mib + next->mib];

  if (search->judge->wish->hands != LID_HANDS_PULL
      && (found < 0 || next->found + (guint)found < search->missing))
    return FALSE;
  if (bounds->n_tables > 1)
    cost = MAX (cost, next->shares[1] + bounds->table[1][at]);
  if (lid_plan_lean_has_table (search))
    cost = MAX (cost, next->shares[2] + bounds->table[2][at] + search->lean_sum);
  best.cost = MAX (MIN (cost, LID_COST_UNKNOWN), best.cost);
  if (best.cost > search->most_cost
      || (search->judge->wish->what == LID_WISH_SPEND && best.cost > search->judge->wish->amount))
    return FALSE;
  if (search->judge->wish->hands == LID_HANDS_PULL)
    best.hands += surplus_of (search, next);
  best.speed = lid_plan_search_speed (search);
  return !lid_plan_descent_is_settled (search, &best);
}

/* Whether some step chosen before has no filling that goes with any of this
 * column's. */
static gboolean
is_apart (LidPlanSearch *search, guint column)
{
  for (guint i = 0; i < column; i++)
    {
      gboolean new_here = i == 0
                          || lid_plan_columns_at (search->columns, i - 1)->group
                                 != lid_plan_columns_at (search->columns, i)->group
                          || search->picked[i - 1] != search->picked[i];

      if (new_here && lid_plan_leaf_are_apart (search, i, column))
        return TRUE;
    }
  return FALSE;
}

static gint64
time_of_node (const LidPlanSearch *search, guint node)
{
  gint64 channels[LID_PLAN_MOST_CHANNELS];
  guint n = 0;

  for (guint i = 0; i < search->columns->columns->len; i++)
    if (search->times.node_of[i] == node)
      channels[n++]
          = g_array_index (steps_at (search, i), LidPlanStep, search->picked[i]).channel_mib;
  return lid_plan_times_read (&search->times, channels, n);
}

/* T of what every column carries, the slowest node's. */
static gint64
time_of (const LidPlanSearch *search)
{
  gint64 most = 0;

  for (guint node = 0; node < search->times.n_nodes; node++)
    {
      gint64 time = time_of_node (search, node);

      most = MAX (most, time);
    }
  return most;
}

static gint64
size_of (const LidPlanSearch *search)
{
  gint64 size = 0;

  for (guint i = 0; i < search->columns->columns->len; i++)
    size += g_array_index (steps_at (search, i), LidPlanStep, search->picked[i]).channel_mib
            * lid_plan_columns_at (search->columns, i)->n_channels;
  return size;
}

/* What the columns cost at the least, by what each carries; LID_PLAN_OUT_OF_REACH: they cannot hold
 * what has to be used. */
static gint64
cost_of_list (LidPlanSearch *search)
{
  gint64 rest[3] = { 0, 0, 0 }, cost, shortage;

  for (guint i = search->columns->columns->len; i-- > 0;)
    for (guint t = 0; t < G_N_ELEMENTS (rest); t++)
      {
        rest[t] += g_array_index (steps_at (search, i), LidPlanStep, search->picked[i]).cost[t];
        search->rest[t][i] = rest[t];
      }
  lid_plan_lean_list (search);
  cost = rest[0] - search->bounds.owned;
  shortage = lid_plan_lean_short (search, 0);
  if (search->bounds.n_tables > 1)
    cost = MAX (cost, rest[1]);
  if (search->lean)
    cost = MAX (cost, MAX (rest[2] + search->lean_sum + shortage,
                           lid_plan_sizes_of_list (search, rest[2])));
  return shortage >= LID_PLAN_OUT_OF_REACH ? shortage : MIN (cost, LID_COST_UNKNOWN);
}

/* Every column has its step: the bounds are sharpened before modules are
 * chosen. */
static void
choose (LidPlanSearch *search)
{
  LidPlanVector before = search->best, best;
  gint64 cost;

  if (search->pass.channel_mib > 0 && search->n_full == 0
      && search->columns->most_fixed < search->pass.channel_mib)
    return; /* another pass's */
  if (search->pass.channel_mib > 0 && search->times.known && search->judge->has_speed)
    {
      gint64 time = time_of (search), size = size_of (search);

      search->best.speed
          = (LidRatio){ size * (search->best.rated ? search->pass.rate : 1), MAX (time, 1) };
    }
  else
    search->best.speed = lid_plan_search_speed (search);
  if (lid_plan_descent_is_settled (search, &search->best))
    {
      search->best = before;
      return;
    }
  best = search->best;
  cost = lid_plan_rated_steps (search) ? LID_PLAN_OUT_OF_REACH : cost_of_list (search);
  best.cost = search->best.cost = MAX (cost, before.cost);
  if (search->judge->wish->hands == LID_HANDS_PULL)
    best.hands += lid_plan_lean_surplus (search, 0);
  if (cost <= search->most_cost && cost < LID_PLAN_OUT_OF_REACH
      && !lid_plan_descent_is_settled (search, &best))
    lid_plan_choice_run (search);
  search->best = before;
}

static guint
left_in_group (const LidPlanSearch *search, guint column)
{
  guint group = lid_plan_columns_at (search->columns, column)->group, n = 0;

  while (column + n < search->columns->columns->len
         && lid_plan_columns_at (search->columns, column + n)->group == group)
    n++;
  return n;
}

static void descend (LidPlanSearch *search, const LidPlanPlace *place);

static void
step_down (LidPlanSearch *search, const LidPlanPlace *place, const LidPlanStep *step)
{
  gboolean idle = step->channel_mib == 0;
  gboolean full = step->channel_mib == search->pass.channel_mib;
  LidPlanPlace next = { place->column + 1,
                        place->mib - step->mib,
                        place->hands - step->hands,
                        { place->shares[0] + step->cost[0], place->shares[1] + step->cost[1],
                          place->shares[2] + step->cost[2] },
                        place->found + step->found,
                        place->forced + step->forced };

  if (idle)
    search->live[search->node_of[place->column]]--;
  search->n_full += full;
  search->again = search->again || lid_plan_node_mixes_would_help (search);
  if (!search->again && lid_plan_search_goes_on (search, 1) && may_go_on (search, &next)
      && !is_apart (search, place->column))
    descend (search, &next);
  search->n_full -= full;
  if (idle)
    search->live[search->node_of[place->column]]++;
}

/* Where a node begins that is not the first, T of the ones before is known, and the least of those
 * from here on: whether that is too long. */
static gboolean
is_late (LidPlanSearch *search, const LidPlanPlace *place)
{
  LidPlanTimes *times = &search->times;
  guint node = times->node_of[place->column];
  LidPlanVector best = search->best;
  gint64 time;

  if (times->joint == NULL || search->pass.channel_mib == 0 || place->column == 0
      || node == times->node_of[place->column - 1])
    return FALSE;
  time = lid_plan_least_rest (times, search->pass.channel_mib, node, place->mib);
  if (time == G_MAXINT64)
    return TRUE;
  time = MAX (time, search->target_time);
  for (guint before = 0; before < node; before++)
    time = MAX (time, time_of_node (search, before));
  if (!search->judge->has_speed)
    return FALSE;
  best.speed = (LidRatio){ search->target_size * (best.rated ? search->pass.rate : 1), time };
  return lid_plan_descent_is_settled (search, &best);
}

static void
descend (LidPlanSearch *search, const LidPlanPlace *place)
{
  const LidPlanBounds *bounds = &search->bounds;
  guint column = place->column, first = 0, left;
  const GArray *steps;

  if (column == search->columns->columns->len)
    {
      choose (search);
      return;
    }
  if (is_late (search, place))
    return;
  steps = steps_at (search, column);
  left = left_in_group (search, column);
  if (column > 0 && steps_at (search, column - 1) == steps)
    first = search->picked[column - 1];
  for (guint s = first; s < steps->len && search->budget > 0 && !search->again; s++)
    {
      const LidPlanStep *step = &g_array_index (steps, LidPlanStep, s);

      if ((guint64)step->mib * left > place->mib) /* the others of the group carry no less */
        break;
      if (step->hands > place->hands
          || bounds->table[0][lid_plan_bounds_index (bounds, column + 1, place->mib - step->mib,
                                                     place->hands - step->hands)]
                 >= LID_PLAN_OUT_OF_REACH)
        continue;
      search->picked[column] = s;
      step_down (search, place, step);
    }
}

/**
 * lid_plan_descent_run:
 * @search: in a pass, at a target
 * @mib: capacity of the target, in steps of the bounds
 * @hands: likewise
 *
 * Tries every population of the target that may add to the front and costs no
 * more than the search's most_cost.
 */
void
lid_plan_descent_run (LidPlanSearch *search, guint mib, guint hands)
{
  const LidPlanPlace start = { 0, mib, hands, { 0, 0, 0 }, 0, 0 };

  search->descent_from = search->steps;
  if (lid_plan_node_mixes_is_settled (search))
    return;
  do
    {
      search->again = FALSE;
      descend (search, &start);
      if (search->again && lid_plan_node_mixes_settle (search))
        return;
    }
  while (search->again && search->budget > 0);
  lid_plan_node_mixes_count_steps (search);
}
