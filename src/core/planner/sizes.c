/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sizes.c: what modules of one size cost, whichever kind they are.
 *
 * All kinds of one capacity together, the cheapest first: a convex function of their number, and a
 * lower bound of what so many cost in any mix. When it is decided what each column carries, the
 * number of modules of a size is decided too, or lies between two; with the target's prices
 * (lean.c) the bound of that list of capacities is as sharp as if the modules were chosen, as long
 * as no rule objects to the mix.
 *
 * Counts are of as many modules as a column has channels. */
#include "planner/search.h"

static int
compare_prices (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return x < y ? -1 : x > y;
}

static void
add_prices (const LidPlanSearch *search, guint kind, GArray *prices)
{
  const LidPlanKind *of = lid_candidates_kind (search->judge->candidates, kind);
  guint unit = search->floor.unit, most = MIN (of->supply / unit, search->floor.most[kind]);

  for (guint n = 1; n <= most; n++)
    {
      gint64 cost = lid_candidates_cost (of, n * unit);
      gint64 price = cost < LID_COST_UNKNOWN ? cost - lid_candidates_cost (of, (n - 1) * unit)
                                             : LID_COST_UNKNOWN / (LID_BOARD_MAX_SLOTS + 1);

      g_array_append_val (prices, price);
    }
}

/**
 * lid_plan_sizes_fill:
 * @search: in a pass whose floor is made
 *
 * What so many of each size cost at the least, of what the pass allows.
 */
void
lid_plan_sizes_fill (LidPlanSearch *search)
{
  const LidPlanBounds *bounds = &search->bounds;
  g_autoptr (GArray) prices = g_array_new (FALSE, FALSE, sizeof (gint64));

  for (guint s = 0; s < bounds->n_sizes && search->floor.least != NULL; s++)
    {
      GArray *sums = search->sizes[s];
      gint64 sum = 0;

      g_array_set_size (prices, 0);
      for (guint k = 0; k < search->judge->candidates->kinds->len; k++)
        if (bounds->size_of[k] == s)
          add_prices (search, k, prices);
      g_array_sort (prices, compare_prices);
      g_array_set_size (sums, 0);
      g_array_append_val (sums, sum);
      for (guint i = 0; i < prices->len; i++)
        {
          sum += g_array_index (prices, gint64, i);
          g_array_append_val (sums, sum);
        }
    }
}

static gint64
above_line (const LidPlanSearch *search, guint size, guint n)
{
  return g_array_index (search->sizes[size], gint64, n) - search->size_price[size] * (gint64)n;
}

/**
 * lid_plan_sizes_aim:
 * @search: at a target that has prices
 *
 * Sets a price of each size that is not below that of any kind of it, and where the cost is nearest
 * to it.
 */
void
lid_plan_sizes_aim (LidPlanSearch *search)
{
  const LidPlanBounds *bounds = &search->bounds;

  for (guint s = 0; s < bounds->n_sizes; s++)
    {
      guint best = 0;

      search->size_price[s] = 0;
      for (guint k = 0; k < search->judge->candidates->kinds->len; k++)
        if (bounds->size_of[k] == s && search->floor.most[k] > 0)
          search->size_price[s] = MAX (search->size_price[s], search->lean_price[k]);
      for (guint n = 1; n < search->sizes[s]->len; n++)
        if (above_line (search, s, n) < above_line (search, s, best))
          best = n;
      search->size_best[s] = best;
    }
}

/**
 * lid_plan_sizes_of_list:
 * @search: every column has its step
 * @shares: what the steps cost at the least by the target's prices
 *
 * Returns: no population with those steps costs less; LID_PLAN_OUT_OF_REACH where there are not so
 * many modules
 */
gint64
lid_plan_sizes_of_list (const LidPlanSearch *search, gint64 shares)
{
  const LidPlanBounds *bounds = &search->bounds;
  guint least[LID_PLAN_SIZES] = { 0 }, most[LID_PLAN_SIZES] = { 0 };

  if (bounds->n_sizes == 0)
    return 0;
  for (guint i = 0; i < search->columns->columns->len; i++)
    {
      guint group = lid_plan_columns_at (search->columns, i)->group;
      const LidPlanStep *step
          = &g_array_index (bounds->steps[group], LidPlanStep, search->picked[i]);

      for (guint s = 0; s < bounds->n_sizes; s++)
        {
          least[s] += step->least_of[s];
          most[s] += step->most_of[s];
        }
    }
  for (guint s = 0; s < bounds->n_sizes; s++)
    {
      guint n = CLAMP (search->size_best[s], least[s], most[s]);

      if (least[s] >= search->sizes[s]->len)
        return LID_PLAN_OUT_OF_REACH;
      shares += above_line (search, s, MIN (n, search->sizes[s]->len - 1));
    }
  return shares;
}
