/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lean.c: prices that know how many are bought.
 *
 * The bounds of bounds.c take each module for the cheapest of its kind, those of floor.c know every
 * price but no slots. Here both are joined, for one target. Let x be the numbers of each kind in
 * the cheapest mix of floor.c. The cost of a kind is convex, so there is a price p at which
 *
 *   cost (y) ≥ cost (x) + p × (y − x)     for every number y of it,
 *
 * the price of the last module bought or of the next one, or between. A sum of p over the modules
 * of a population, and of cost (x) − p × x over all kinds, is a lower bound of what it costs, and
 * equal to it at x; it can be summed up filling by filling, and what is decided can be charged with
 * its excess: where more than x of a kind are used already, cost (y) less the right side above only
 * grows.
 *
 * The other way round too: what is owned costs nothing, and where the columns that are left cannot
 * hold as many of it as x, not even with what is decided, the bound is charged with what that comes
 * to; where it has to be used again, there is no such population.
 *
 * All counts are of as many modules as a column has channels. */
#include "planner/search.h"

#define STEP_WORK 200u /* numbers of a table that cost as much as one step */

static gint64
cost_of (const LidPlanSearch *search, guint kind, guint n)
{
  return lid_candidates_cost (lid_candidates_kind (search->judge->candidates, kind),
                              n * search->floor.unit);
}

/* The price of the last one bought. */
static gint64
last_price (const LidPlanSearch *search, guint kind)
{
  guint n = search->lean_count[kind];

  return n > 0 ? cost_of (search, kind, n) - cost_of (search, kind, n - 1) : 0;
}

/* That of the next one; where it has none, or the pass allows none, a sum that no price comes near:
 * so many of it that are to be had do not pass what a module without a price costs. */
static gint64
next_price (const LidPlanSearch *search, guint kind)
{
  const LidPlanKind *of = lid_candidates_kind (search->judge->candidates, kind);
  gint64 most = LID_COST_UNKNOWN / (gint64)(of->supply + 1);
  guint n = search->lean_count[kind];

  if ((n + 1) * search->floor.unit > of->supply || n + 1 > search->floor.most[kind])
    return most;
  return MIN (cost_of (search, kind, n + 1) - cost_of (search, kind, n), most);
}

/* A price for which the line above holds, between that of the last one and that of the next. In
 * between, the next one's of all kinds of that size: then none is worth exchanging for another. */
static gint64
price_of (const LidPlanSearch *search, guint kind)
{
  const LidCandidates *candidates = search->judge->candidates;
  gint64 size = lid_module_capacity (lid_candidates_kind (candidates, kind)->module);
  gint64 price = next_price (search, kind);

  for (guint k = 0; k < candidates->kinds->len; k++)
    if (lid_module_capacity (lid_candidates_kind (candidates, k)->module) == size)
      price = MIN (price, next_price (search, k));
  return MAX (price, last_price (search, kind));
}

static int
compare_members (gconstpointer a, gconstpointer b, gpointer data)
{
  guint i = *(const guint *)a, k = *(const guint *)b;
  const LidPlanFilling *x = &g_array_index ((GArray *)data, LidPlanFilling, i);
  const LidPlanFilling *y = &g_array_index ((GArray *)data, LidPlanFilling, k);

  if (x->cost[2] != y->cost[2])
    return x->cost[2] < y->cost[2] ? -1 : 1;
  return (i > k) - (i < k);
}

static void
price_group (LidPlanSearch *search, guint group)
{
  GArray *fillings = search->fillings->of_group[group];

  for (guint s = 0; s < search->bounds.steps[group]->len; s++)
    {
      LidPlanStep *step = &g_array_index (search->bounds.steps[group], LidPlanStep, s);

      step->cost[2] = G_MAXINT64;
      for (guint i = 0; i < step->members->len; i++)
        {
          LidPlanFilling *filling
              = &g_array_index (fillings, LidPlanFilling, g_array_index (step->members, guint, i));

          filling->cost[2] = 0;
          for (guint k = 0; k < LID_PLAN_DEPTH; k++)
            if (filling->kinds[k] != LID_NOWHERE)
              filling->cost[2] += search->lean_price[filling->kinds[k]];
          step->cost[2] = MIN (step->cost[2], filling->cost[2]);
        }
      g_array_sort_with_data (step->members, compare_members, fillings);
    }
}

/**
 * lid_plan_lean_aim:
 * @search: at a target of a pass whose bounds are filled
 * @mib: of the target, in steps
 * @hands: as the floor counts them
 *
 * Sets prices for the target, or that there are none.
 */
void
lid_plan_lean_aim (LidPlanSearch *search, guint mib, guint hands)
{
  guint n_kinds = search->judge->candidates->kinds->len;

  search->lean = lid_plan_floor_mix (&search->floor, mib, hands, search->lean_count);
  search->lean_sum = 0;
  search->lean_table = FALSE;
  search->lean_from = search->steps;
  for (guint k = 0; k < n_kinds && search->lean; k++)
    {
      search->lean_price[k] = price_of (search, k);
      search->lean_sum += cost_of (search, k, search->lean_count[k])
                          - search->lean_price[k] * search->lean_count[k];
    }
  if (search->lean)
    lid_plan_sizes_aim (search);
  for (guint g = 0; g < search->fillings->n_groups && search->lean; g++)
    if (search->bounds.steps[g] != NULL)
      price_group (search, g);
}

/**
 * lid_plan_lean_has_table:
 * @search: in a descent
 *
 * Most targets are settled before a table of their own would pay; it is made when as much work went
 * into one as it costs.
 *
 * Returns: whether the last table of the bounds holds
 */
gboolean
lid_plan_lean_has_table (LidPlanSearch *search)
{
  if (!search->lean || search->lean_table)
    return search->lean_table;
  if ((search->steps - search->lean_from) * STEP_WORK < lid_plan_bounds_work (&search->bounds))
    return FALSE;
  lid_plan_bounds_fill_lean (&search->bounds);
  search->lean_table = TRUE;
  return TRUE;
}

/**
 * lid_plan_lean_excess:
 * @kind: of modules
 * @used: so many are decided
 *
 * Returns: what the bound may be charged for them
 */
gint64
lid_plan_lean_excess (const LidPlanSearch *search, guint kind, guint used)
{
  guint n = used / search->floor.unit, count = search->lean_count[kind];

  if (!search->lean || n <= count
      || used > lid_candidates_kind (search->judge->candidates, kind)->supply)
    return 0;
  return cost_of (search, kind, n) - cost_of (search, kind, count)
         - search->lean_price[kind] * (gint64)(n - count);
}

static const LidPlanStep *
step_at (const LidPlanSearch *search, guint column)
{
  guint group = lid_plan_columns_at (search->columns, column)->group;

  return &g_array_index (search->bounds.steps[group], LidPlanStep, search->picked[column]);
}

/* The most and the least of @kind that one channel holds in some filling of a step. */
static void
count_in_step (const LidPlanSearch *search,
               guint group,
               const LidPlanStep *step,
               int kind,
               guint *most,
               guint *least)
{
  *most = 0;
  *least = G_MAXUINT;
  for (guint i = 0; i < step->members->len; i++)
    {
      const LidPlanFilling *filling
          = lid_plan_fillings_at (search->fillings, group, g_array_index (step->members, guint, i));
      guint n = 0;

      for (guint k = 0; k < LID_PLAN_DEPTH; k++)
        n += filling->kinds[k] == kind;
      *most = MAX (*most, n);
      *least = MIN (*least, n);
    }
}

/**
 * lid_plan_lean_list:
 * @search: every column has its step
 *
 * Counts what the columns can hold, and cannot but hold, of each kind that is owned.
 */
void
lid_plan_lean_list (LidPlanSearch *search)
{
  guint n = search->columns->columns->len;

  for (guint k = 0; k < search->n_owned; k++)
    {
      guint *room = search->room + (gsize)k * (n + 1), most = 0;
      guint *forced = search->forced + (gsize)k * (n + 1), least = 0;

      room[n] = forced[n] = 0;
      for (guint i = n; i-- > 0;)
        {
          guint group = lid_plan_columns_at (search->columns, i)->group;
          const LidPlanStep *step = step_at (search, i);

          if (i + 1 == n || lid_plan_columns_at (search->columns, i + 1)->group != group
              || search->picked[i] != search->picked[i + 1])
            count_in_step (search, group, step, (int)search->owned_kinds[k], &most, &least);
          room[i] = room[i + 1] + most;
          forced[i] = forced[i + 1] + least;
        }
    }
}

/**
 * lid_plan_lean_short:
 * @column: the columns before it are decided
 *
 * Returns: what the bound may be charged for modules that are owned and find no place any more;
 * LID_PLAN_OUT_OF_REACH where one of them must
 */
gint64
lid_plan_lean_short (const LidPlanSearch *search, guint column)
{
  guint n = search->columns->columns->len, unit = search->floor.unit;
  gint64 sum = 0;

  for (guint i = 0; i < search->n_owned; i++)
    {
      guint k = search->owned_kinds[i], count = search->lean_count[k];
      guint most = search->used[k] / unit + search->room[(gsize)i * (n + 1) + column];

      if (search->judge->wish->hands != LID_HANDS_PULL
          && most * unit < lid_candidates_kind (search->judge->candidates, k)->found)
        return LID_PLAN_OUT_OF_REACH;
      if (search->lean && most < count)
        sum += cost_of (search, k, most) - cost_of (search, k, count)
               + search->lean_price[k] * (gint64)(count - most);
    }
  return sum;
}

/**
 * lid_plan_lean_surplus:
 * @column: the columns before it are decided
 *
 * Returns: so many hands come on top of those of the fillings: modules of kinds that are found,
 * more than are found (fillings.c); at the end that is exact
 */
guint
lid_plan_lean_surplus (const LidPlanSearch *search, guint column)
{
  guint n = search->columns->columns->len, sum = 0;

  for (guint i = 0; i < search->n_owned; i++)
    {
      guint k = search->owned_kinds[i];
      guint found = lid_candidates_kind (search->judge->candidates, k)->found;
      guint used
          = search->used[k] + search->forced[(gsize)i * (n + 1) + column] * search->floor.unit;

      sum += found > 0 && used > found ? used - found : 0;
    }
  return sum;
}
