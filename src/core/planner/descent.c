/* SPDX-License-Identifier: GPL-3.0-or-later */
/* descent.c: column by column down to whole populations of one target.
 *
 * Paragraphs 4 to 6 of search.c. In a group the numbers of fillings never fall from one column to
 * the next, and they are sorted by capacity, so the empty columns of a group come first: how many
 * channels are in use is known early, and with it the width of the regions. */
#include "planner/search.h"

/* Whether every population with this bound is settled; of a tie, whether none can be one. */
gboolean
lid_plan_descent_is_done (const LidPlanSearch *search, const LidPlanVector *best)
{
  const LidPlanVector *seek = search->seek;

  if (seek == NULL)
    return lid_plan_front_covers (search->front, best);
  return seek->rated != best->rated || best->hands > seek->hands || best->cost > seek->cost
         || (search->front->what != LID_WISH_CHEAPEST
             && lid_ratio_compare (best->speed, seek->speed) < 0)
         || (search->front->what == LID_WISH_SPEND && best->usable_mib < seek->usable_mib);
}

/* Puts the modules of a filling in, or takes them out again. */
static gboolean
apply (LidPlanSearch *search, const LidPlanColumn *column, const LidPlanFilling *filling, int sign)
{
  gboolean within = TRUE;

  for (guint i = 0; i < column->n_slots; i++)
    {
      const LidPlanKind *kind;
      guint *used, n = column->n_channels;

      if (filling->kinds[i] == LID_NOWHERE)
        continue;
      kind = lid_candidates_kind (search->judge->candidates, (guint)filling->kinds[i]);
      used = &search->used[filling->kinds[i]];
      for (guint k = 0; k < n; k++)
        {
          if (sign < 0)
            (*used)--;
          if (*used < kind->found)
            search->missing -= (guint)sign;
          else if (kind->found > 0)
            search->surplus += (guint)sign;
          if (*used < kind->supply)
            search->cost
                += sign
                   * (lid_candidates_cost (kind, *used + 1) - lid_candidates_cost (kind, *used));
          if (sign > 0)
            (*used)++;
        }
      within = within && *used <= kind->supply;
    }
  search->n_used += (guint)sign * filling->n_modules;
  return within;
}

/* Free slots of the columns from @column on. */
static guint
slots_from (const LidPlanSearch *search, guint column)
{
  guint n = 0;

  for (guint i = column; i < search->columns->columns->len; i++)
    {
      const LidPlanColumn *here = lid_plan_columns_at (search->columns, i);

      n += here->n_channels * here->n_slots;
    }
  return n;
}

static gboolean
may_go_on (LidPlanSearch *search, guint column, guint mib, guint hands, gint64 shares)
{
  const LidPlanBounds *bounds = &search->bounds;
  const LidWish *wish = search->judge->wish;
  gsize at = lid_plan_bounds_index (bounds, column + 1, mib, hands);
  gint64 rest = bounds->table[0][at], cost = MIN (search->cost, LID_COST_UNKNOWN);
  LidPlanVector best = search->best;

  if (search->n_used + wish->free_slots > search->columns->n_free)
    return FALSE;
  if (wish->hands != LID_HANDS_PULL && search->missing > 0
      && search->missing > slots_from (search, column + 1))
    return FALSE;
  if (bounds->n_tables > 1)
    best.cost = MAX (shares + rest - bounds->owned, cost + bounds->table[1][at]);
  else
    best.cost = cost + rest;
  best.cost = MAX (MIN (best.cost, LID_COST_UNKNOWN), search->best.cost);
  if (best.cost > search->most_cost || (wish->what == LID_WISH_SPEND && best.cost > wish->amount))
    return FALSE;
  if (wish->hands == LID_HANDS_PULL)
    best.hands += search->surplus;
  best.speed = lid_plan_search_speed (search, search->columns->soldered
                                                  + (gint64)search->target_mib * bounds->unit_mib);
  return !lid_plan_descent_is_done (search, &best);
}

static guint
left_in_group (const LidPlanSearch *search, guint column)
{
  guint group = lid_plan_columns_at (search->columns, column)->group, n = 0;

  for (guint i = column; i < search->columns->columns->len; i++)
    n += lid_plan_columns_at (search->columns, i)->group == group;
  return n;
}

static void descend (LidPlanSearch *search, guint column, guint mib, guint hands, gint64 shares);

static void
step_down (LidPlanSearch *search,
           guint column,
           const LidPlanFilling *filling,
           guint mib,
           guint hands,
           gint64 shares)
{
  const LidPlanColumn *here = lid_plan_columns_at (search->columns, column);
  gboolean idle = filling->channel_mib == 0 && filling->n_modules == 0;

  if (idle)
    search->live[search->node_of[column]]--;
  if (apply (search, here, filling, 1) && lid_plan_search_goes_on (search, 1)
      && may_go_on (search, column, mib, hands, shares)
      && !lid_plan_leaf_is_stopped (search, column))
    descend (search, column + 1, mib, hands, shares);
  apply (search, here, filling, -1);
  if (idle)
    search->live[search->node_of[column]]++;
}

static void
descend (LidPlanSearch *search, guint column, guint mib, guint hands, gint64 shares)
{
  const LidPlanBounds *bounds = &search->bounds;
  const GArray *fillings;
  guint group, first = 0, left;

  if (column == search->columns->columns->len)
    {
      lid_plan_leaf_try (search);
      return;
    }
  group = lid_plan_columns_at (search->columns, column)->group;
  fillings = search->fillings->of_group[group];
  left = left_in_group (search, column);
  if (column > 0 && lid_plan_columns_at (search->columns, column - 1)->group == group)
    first = search->chosen[column - 1];
  for (guint f = first; f < fillings->len && search->budget > 0; f++)
    {
      const LidPlanFilling *filling = &g_array_index (fillings, LidPlanFilling, f);
      guint of_mib = lid_plan_bounds_mib (bounds, filling);
      guint of_hands = lid_plan_bounds_hands (bounds, filling);

      if ((guint64)of_mib * left > mib) /* the others of the group carry no less */
        return;
      if (of_hands > hands || !lid_plan_bounds_takes (&search->pass, filling)
          || bounds->table[0][lid_plan_bounds_index (bounds, column + 1, mib - of_mib,
                                                     hands - of_hands)]
                 >= LID_PLAN_OUT_OF_REACH)
        continue;
      search->chosen[column] = f;
      step_down (search, column, filling, mib - of_mib, hands - of_hands,
                 shares + filling->cost[0]);
    }
}

/**
 * lid_plan_descent_run:
 * @search: in a pass
 * @mib: capacity of the target, in steps of the bounds
 * @hands: likewise
 *
 * Tries every population of the target that may add to the front and costs no more than the
 * search's most_cost.
 */
void
lid_plan_descent_run (LidPlanSearch *search, guint mib, guint hands)
{
  search->target_mib = mib;
  descend (search, 0, mib, hands, 0);
}
