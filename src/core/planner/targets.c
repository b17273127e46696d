/* SPDX-License-Identifier: GPL-3.0-or-later */
/* targets.c: what a pass of the search aims at: paragraph 4 of search.c.
 *
 * A target is a capacity and a number of hands. What it costs at the least is asked in the order of
 * what the answer costs to get: first whatever the pass (floor.c), then by the tables of the pass,
 * which are made when the first target asks for them. */
#include "planner/search.h"

/**
 * lid_plan_targets_usable:
 * @mib: capacity
 *
 * Returns: the most of it that is usable under the memory mode, MiB
 */
gint64
lid_plan_targets_usable (const LidPlanSearch *search, gint64 mib)
{
  switch ((int)search->judge->settings->mode)
    {
    case LID_MODE_MIRRORED:
      return mib / 2;
    case LID_MODE_PARTLY_MIRRORED:
      return mib - search->judge->settings->mirrored_mib;
    default:
      return mib;
    }
}

static gint64
cost_at_best (const LidPlanSearch *search, guint mib, guint hands)
{
  const LidPlanBounds *bounds = &search->bounds;
  gsize at = lid_plan_bounds_index (bounds, 0, mib, hands);
  gint64 cost = bounds->table[0][at];

  if (cost >= LID_PLAN_OUT_OF_REACH)
    return cost;
  cost = MAX (cost - bounds->owned, 0);
  if (bounds->n_tables > 1)
    cost = MAX (cost, bounds->table[1][at]);
  return MIN (cost, LID_COST_UNKNOWN);
}

/**
 * lid_plan_targets_apart:
 *
 * Returns: hands that every plan has: found modules in slots that must be clear leave them
 */
guint
lid_plan_targets_apart (const LidPlanSearch *search)
{
  const LidCandidates *candidates = search->judge->candidates;
  guint n = 0;

  for (guint i = 0; i < candidates->n_slots; i++)
    n += candidates->fate[i] == LID_SLOT_CLEAR && candidates->found_kind[i] != LID_NOWHERE;
  return search->judge->wish->hands == LID_HANDS_PULL ? n : 0;
}

/* Whether the target at hand is settled, if it costs no less than @cost. */
static gboolean
is_settled (LidPlanSearch *search, gint64 cost)
{
  search->best.cost = MIN (cost, LID_COST_UNKNOWN);
  return cost >= LID_PLAN_OUT_OF_REACH
         || (search->judge->wish->what == LID_WISH_SPEND
             && search->best.cost > search->judge->wish->amount)
         || lid_plan_descent_is_settled (search, &search->best);
}

/* Likewise, with the hands that come on top where the columns cannot but hold more modules of found
 * kinds than are found; descent.c adds them again, part by part. */
static gboolean
is_beaten (LidPlanSearch *search, guint mib, gint64 cost)
{
  guint hands = search->best.hands;
  gboolean settled;

  if (search->judge->wish->hands != LID_HANDS_PULL
      || search->bounds.forced[mib] <= (gint32)search->n_found)
    return FALSE;
  search->best.hands += (guint)search->bounds.forced[mib] - search->n_found;
  settled = is_settled (search, cost);
  search->best.hands = hands;
  return settled;
}

/* The steps and the floors of a pass cost little, its tables a lot; many a pass needs none of them.
 */
static void
begin_bounds (LidPlanSearch *search)
{
  if (search->begun)
    return;
  lid_plan_bounds_begin (&search->bounds, &search->pass);
  lid_plan_floor_narrow (&search->floor);
  lid_plan_floor_narrow (&search->hands_floor);
  search->begun = TRUE;
}

/* What every target of a capacity has in common, where no T is less than @time. */
static void
set_time (LidPlanSearch *search, guint mib, gint64 time)
{
  gint64 size = search->columns->soldered + (gint64)mib * search->bounds.unit_mib;

  search->best.usable_mib = lid_plan_targets_usable (search, size);
  search->target_mib = mib;
  search->target_size = size;
  search->target_time = time;
  search->best.speed = lid_plan_search_speed (search);
}

/* Likewise, with the least T there is; whether there is any population of that capacity. */
static gboolean
set_size (LidPlanSearch *search, guint mib)
{
  gint64 time = search->pass.channel_mib > 0
                    ? lid_plan_least_of (&search->times, search->pass.channel_mib, mib)
                    : 0;

  if (time == G_MAXINT64) /* no such population: of no speed */
    return FALSE;
  set_time (search, mib, time);
  return TRUE;
}

/* Whether each number of hands is settled, by the floors as they are. Where what is found may
 * leave, a target stands for all numbers from its own on. */
static gboolean
all_settled (LidPlanSearch *search, guint mib)
{
  gboolean pull = search->judge->wish->hands == LID_HANDS_PULL;

  for (guint hands = 0; hands < (pull ? 1 : search->bounds.n_hands); hands++)
    {
      guint floor_hands = (pull ? search->bounds.n_hands : hands) * search->bounds.unit_hands;

      if (search->bounds.n_hands == 1)
        floor_hands = 0;
      search->best.hands = pull ? 0 : hands * search->bounds.unit_hands;
      if (!is_settled (search,
                       lid_plan_floor_cost (&search->floor, search->begun, mib, floor_hands)))
        return FALSE;
    }
  return TRUE;
}

/* So many steps of capacity, and every capacity beyond is settled. */
static guint
n_capacities (LidPlanSearch *search, guint mib)
{
  LidPlanVector best = search->best;
  gint64 size = search->target_size, time = search->target_time;
  guint n = search->bounds.n_mib;

  for (; n > mib + 1; n--)
    {
      set_time (search, n - 1, search->pass.channel_mib);
      if (!all_settled (search, n - 1))
        break;
    }
  search->best = best;
  search->target_mib = mib;
  search->target_size = size;
  search->target_time = time;
  return n;
}

static void
fill_bounds (LidPlanSearch *search, guint mib)
{
  begin_bounds (search);
  if (search->filled && mib < search->bounds.n_filled)
    return;
  lid_plan_bounds_fill (&search->bounds, n_capacities (search, mib));
  lid_plan_sizes_fill (search);
  g_hash_table_remove_all (search->apart); /* steps are numbered anew in each pass */
  search->filled = TRUE;
}

/**
 * lid_plan_targets_are_vain:
 * @mib: capacity, in steps
 *
 * Returns: whether the targets of that capacity are settled all at once, whatever their hands
 */
gboolean
lid_plan_targets_are_vain (LidPlanSearch *search, guint mib)
{
  set_time (search, mib, search->pass.channel_mib);
  if (all_settled (search, mib))
    return TRUE;
  if (!search->begun)
    {
      begin_bounds (search);
      if (all_settled (search, mib))
        return TRUE;
    }
  return !set_size (search, mib) || all_settled (search, mib);
}

/**
 * lid_plan_targets_aim:
 * @search: in a pass
 * @mib: capacity, in steps of the bounds
 * @hands: likewise
 *
 * One target: everything of that capacity and those hands.
 */
void
lid_plan_targets_aim (LidPlanSearch *search, guint mib, guint hands)
{
  guint floor_hands = hands * search->bounds.unit_hands;
  gint64 cost;

  if (!set_size (search, mib))
    return;
  search->best.hands = floor_hands + lid_plan_targets_apart (search);
  if (is_settled (search, lid_plan_floor_cost (&search->floor, search->begun, mib, floor_hands)))
    return;
  fill_bounds (search, mib);
  if (search->judge->wish->hands != LID_HANDS_PULL
      && search->bounds.found[mib] < (gint32)search->missing)
    return;
  cost = MAX (cost_at_best (search, mib, hands),
              lid_plan_floor_cost (&search->floor, TRUE, mib, floor_hands));
  if (is_beaten (search, mib, cost) || is_settled (search, cost)
      || !lid_plan_search_goes_on (search, 1))
    return;
  lid_plan_lean_aim (search, mib, floor_hands);
  if (search->seek == NULL)
    {
      search->most_cost = search->best.cost;
      lid_plan_descent_run (search, mib, hands);
      if (lid_plan_descent_is_done (search, &search->best))
        return;
    }
  search->most_cost = LID_PLAN_OUT_OF_REACH;
  lid_plan_descent_run (search, mib, hands);
}
