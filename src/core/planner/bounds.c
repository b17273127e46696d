/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bounds.c: what is left to be decided cannot cost less.
 *
 * For the columns from one on: the least cost with which they can carry exactly
 * so much capacity with exactly so many hands, each column free to take any
 * filling of the pass. It is a table, column after column from the last, and a
 * lower bound of the truth because it forgets supply, order and every rule; and
 * it is exact where those do not bite, which makes it a guide as well.
 *
 * Prices of a kind rise (the cheapest rows first) and what is owned is free, so
 * the cost of n modules of a kind is convex, 0 up to what is owned. Two bounds
 * that can be summed up filling by filling: first    price × n for every kind,
 * less price × owned once for all: a tangent of the convex cost. What is owned
 * and cannot be bought gets the price of as much capacity of the cheapest kind:
 * any price is true there, for n never passes what is owned, and one of 0 would
 * take what is owned for endless; second   what is owned is free and endless;
 * other kinds cost their cheapest price. The search takes the larger one, the
 * second on top of the exact cost of what is decided.
 *
 * Sizes are counted in a unit that divides them all, or, where that makes too
 * many steps, in a larger one and rounded up, which keeps every bound true:
 * more capacity is never worse. */
#include "planner/bounds.h"

#define MOST_ENTRIES 1500000u

static guint64
common (guint64 a, guint64 b)
{
  while (b != 0)
    {
      guint64 rest = a % b;

      a = b;
      b = rest;
    }
  return a;
}

/* The least money for a MiB of what can be bought; 0: nothing with a price can.
 */
static double
least_for_a_mib (const LidCandidates *candidates)
{
  double least = 0;

  for (guint k = 0; k < candidates->kinds->len; k++)
    {
      const LidPlanKind *kind = lid_candidates_kind (candidates, k);
      gint64 mib = lid_module_capacity (kind->module);
      double price = mib > 0 ? (double)kind->least_price / (double)mib : 0;

      if (kind->least_price < LID_COST_UNKNOWN && mib > 0 && (least <= 0 || price < least))
        least = price;
    }
  return least;
}

/* The price of the first bound. */
static gint64
tangent (const LidPlanKind *kind, double for_a_mib)
{
  if (kind->owned == 0 || (kind->supply > kind->owned && kind->least_price < LID_COST_UNKNOWN))
    return kind->least_price;
  if (kind->supply > kind->owned)
    return 0;
  return (gint64)(for_a_mib * (double)lid_module_capacity (kind->module));
}

static void
price_fillings (LidPlanBounds *bounds)
{
  double for_a_mib = least_for_a_mib (bounds->candidates);

  for (guint i = 0; i < bounds->columns->columns->len; i++)
    {
      const LidPlanColumn *column = lid_plan_columns_at (bounds->columns, i);
      GArray *fillings = bounds->fillings->of_group[column->group];

      for (guint f = 0; f < fillings->len; f++)
        {
          LidPlanFilling *filling = &g_array_index (fillings, LidPlanFilling, f);

          filling->cost[0] = filling->cost[1] = 0;
          for (guint s = 0; s < column->n_slots; s++)
            {
              const LidPlanKind *kind;

              if (filling->kinds[s] == LID_NOWHERE)
                continue;
              kind = lid_candidates_kind (bounds->candidates, (guint)filling->kinds[s]);
              filling->cost[0] += tangent (kind, for_a_mib) * column->n_channels;
              filling->cost[1] += kind->owned > 0 ? 0 : kind->least_price * column->n_channels;
            }
        }
    }
  bounds->n_tables = 1;
  for (guint k = 0; k < bounds->candidates->kinds->len; k++)
    {
      const LidPlanKind *kind = lid_candidates_kind (bounds->candidates, k);

      bounds->owned += kind->owned > 0 ? tangent (kind, for_a_mib) * kind->owned : 0;
      if (kind->owned > 0)
        bounds->n_tables = 2;
    }
}

/* Tells the capacities of modules apart. */
static void
name_sizes (LidPlanBounds *bounds)
{
  const GPtrArray *kinds = bounds->candidates->kinds;
  gint64 sizes[LID_PLAN_SIZES];

  bounds->size_of = g_new0 (guint8, kinds->len + 1);
  for (guint k = 0; k < kinds->len; k++)
    {
      gint64 size = lid_module_capacity (lid_candidates_kind (bounds->candidates, k)->module);
      guint s = 0;

      while (s < bounds->n_sizes && sizes[s] != size)
        s++;
      if (s == LID_PLAN_SIZES)
        {
          bounds->n_sizes = 0;
          return;
        }
      sizes[s] = size;
      bounds->n_sizes = MAX (bounds->n_sizes, s + 1);
      bounds->size_of[k] = (guint8)s;
    }
}

static guint64
entries (const LidPlanBounds *bounds, guint64 mib, guint n)
{
  return (mib / (guint64)bounds->unit_mib + n + 1) * bounds->n_hands * (n + 1);
}

/* How many steps of capacity and hands there are at most. */
static void
measure (LidPlanBounds *bounds, gboolean no_hands)
{
  guint64 mib = 0, hands = 0, unit_mib = 0, unit_hands = 0;
  guint n = bounds->columns->columns->len;

  for (guint i = 0; i < n; i++)
    {
      guint group = lid_plan_columns_at (bounds->columns, i)->group;
      guint64 most_mib = 0, most_hands = 0;

      for (guint f = 0; f < bounds->fillings->of_group[group]->len; f++)
        {
          const LidPlanFilling *filling = lid_plan_fillings_at (bounds->fillings, group, f);

          unit_mib = common (unit_mib, (guint64)filling->mib);
          unit_hands = common (unit_hands, filling->hands);
          most_mib = MAX (most_mib, (guint64)filling->mib);
          most_hands = MAX (most_hands, filling->hands);
        }
      mib += most_mib;
      hands += most_hands;
    }
  bounds->unit_hands = no_hands ? G_MAXUINT : (guint)MAX (unit_hands, 1);
  bounds->n_hands = (guint)(hands / bounds->unit_hands) + 1;
  /* So many columns that hands alone are too many steps: they all count as none, fewer than there
   * are, which keeps every bound true. */
  if ((guint64)(n + 1) * (n + 2) * bounds->n_hands > MOST_ENTRIES)
    {
      bounds->unit_hands = G_MAXUINT;
      bounds->n_hands = 1;
    }
  bounds->unit_mib = (gint64)MAX (unit_mib, 1);
  while (entries (bounds, mib, n) > MOST_ENTRIES && (guint64)bounds->unit_mib <= mib)
    bounds->unit_mib *= 2;
  bounds->n_mib = (guint)(mib / (guint64)bounds->unit_mib) + n + 1;
}

/**
 * lid_plan_bounds_init:
 * @bounds: (out): to be given back with lid_plan_bounds_clear()
 * @columns: borrowed, like the rest
 * @fillings: (inout): their shares of the bounds are set
 * @no_hands: hands do not matter, all count as none
 */
void
lid_plan_bounds_init (LidPlanBounds *bounds,
                      const LidPlanColumns *columns,
                      LidPlanFillings *fillings,
                      const LidCandidates *candidates,
                      gboolean no_hands)
{
  gsize n;

  *bounds = (LidPlanBounds){ .columns = columns, .fillings = fillings, .candidates = candidates };
  bounds->steps = g_new0 (GArray *, fillings->n_groups + 1);
  price_fillings (bounds);
  name_sizes (bounds);
  measure (bounds, no_hands);
  n = lid_plan_bounds_index (bounds, columns->columns->len + 1, 0, 0);
  for (guint t = 0; t < bounds->n_tables; t++)
    bounds->table[t] = g_new (gint64, n);
  bounds->found = g_new (gint32, (gsize)(columns->columns->len + 1) * bounds->n_mib);
  bounds->forced = g_new (gint32, (gsize)(columns->columns->len + 1) * bounds->n_mib);
}

static void
clear_steps (LidPlanBounds *bounds)
{
  for (guint i = 0; i < bounds->fillings->n_groups; i++)
    g_clear_pointer (&bounds->steps[i], g_array_unref);
}

void
lid_plan_bounds_clear (LidPlanBounds *bounds)
{
  clear_steps (bounds);
  g_clear_pointer (&bounds->steps, g_free);
  g_clear_pointer (&bounds->size_of, g_free);
  g_clear_pointer (&bounds->table[0], g_free);
  g_clear_pointer (&bounds->table[1], g_free);
  g_clear_pointer (&bounds->table[2], g_free);
  g_clear_pointer (&bounds->found, g_free);
  g_clear_pointer (&bounds->forced, g_free);
}

static void
fill_column (LidPlanBounds *bounds, guint column, guint table, const GArray *steps)
{
  gint64 *to = bounds->table[table] + lid_plan_bounds_index (bounds, column, 0, 0);
  const gint64 *from = bounds->table[table] + lid_plan_bounds_index (bounds, column + 1, 0, 0);
  guint n_hands = bounds->n_hands;

  for (gsize i = 0; i < (gsize)bounds->n_filled * n_hands; i++)
    to[i] = LID_PLAN_OUT_OF_REACH;
  for (guint k = 0; k < steps->len; k++)
    {
      const LidPlanStep *step = &g_array_index (steps, LidPlanStep, k);
      gint64 cost = step->cost[table];

      for (guint mib = step->mib; mib < bounds->n_filled; mib++)
        {
          gint64 *row = to + (gsize)mib * n_hands + step->hands;
          const gint64 *rest = from + (gsize)(mib - step->mib) * n_hands;

          for (guint h = 0; h + step->hands < n_hands; h++)
            row[h] = MIN (row[h], rest[h] + cost);
        }
    }
  for (gsize i = 0; i < (gsize)bounds->n_filled * n_hands; i++)
    to[i] = MIN (to[i], LID_PLAN_OUT_OF_REACH);
}

/* Where all that is found is used again, this tells early that there is no place for it left. */
static void
fill_found (LidPlanBounds *bounds)
{
  guint n = bounds->columns->columns->len;

  for (gsize i = 0; i < (gsize)(n + 1) * bounds->n_mib; i++)
    bounds->found[i] = -1;
  bounds->found[(gsize)n * bounds->n_mib] = 0;
  for (guint column = n; column-- > 0;)
    {
      const GArray *steps = bounds->steps[lid_plan_columns_at (bounds->columns, column)->group];
      gint32 *to = bounds->found + (gsize)column * bounds->n_mib;

      for (guint k = 0; k < steps->len; k++)
        {
          const LidPlanStep *step = &g_array_index (steps, LidPlanStep, k);

          for (guint mib = step->mib; mib < bounds->n_filled; mib++)
            if (to[bounds->n_mib + mib - step->mib] >= 0)
              to[mib] = MAX (to[mib], to[bounds->n_mib + mib - step->mib] + (gint32)step->found);
        }
    }
}

static void
fill_table (LidPlanBounds *bounds, guint table)
{
  guint n = bounds->columns->columns->len;
  gint64 *last = bounds->table[table] + lid_plan_bounds_index (bounds, n, 0, 0);

  for (gsize i = 0; i < (gsize)bounds->n_mib * bounds->n_hands; i++)
    last[i] = LID_PLAN_OUT_OF_REACH;
  last[0] = 0;
  for (guint column = n; column-- > 0;)
    fill_column (bounds, column, table,
                 bounds->steps[lid_plan_columns_at (bounds->columns, column)->group]);
}

/* Modules of found kinds that the columns from one on hold at the least. */
static void
fill_forced (LidPlanBounds *bounds)
{
  guint n = bounds->columns->columns->len;

  for (gsize i = 0; i < (gsize)(n + 1) * bounds->n_mib; i++)
    bounds->forced[i] = G_MAXINT32 / 2;
  bounds->forced[(gsize)n * bounds->n_mib] = 0;
  for (guint column = n; column-- > 0;)
    {
      const GArray *steps = bounds->steps[lid_plan_columns_at (bounds->columns, column)->group];
      gint32 *to = bounds->forced + (gsize)column * bounds->n_mib;

      for (guint k = 0; k < steps->len; k++)
        {
          const LidPlanStep *step = &g_array_index (steps, LidPlanStep, k);

          for (guint mib = step->mib; mib < bounds->n_filled; mib++)
            to[mib] = MIN (to[mib], to[bounds->n_mib + mib - step->mib] + (gint32)step->forced);
        }
    }
}

/**
 * lid_plan_bounds_begin:
 * @bounds: (inout): the steps become those of @pass
 */
void
lid_plan_bounds_begin (LidPlanBounds *bounds, const LidPlanPass *pass)
{
  clear_steps (bounds);
  for (guint column = 0; column < bounds->columns->columns->len; column++)
    {
      const LidPlanColumn *here = lid_plan_columns_at (bounds->columns, column);

      if (bounds->steps[here->group] == NULL)
        bounds->steps[here->group] = lid_plan_steps_of (bounds, pass, here);
    }
}

/**
 * lid_plan_bounds_fill:
 * @bounds: (inout): the tables become those of the pass
 * @n_mib: for so many steps of capacity, that of none included; there is nothing beyond them
 */
void
lid_plan_bounds_fill (LidPlanBounds *bounds, guint n_mib)
{
  bounds->n_filled = n_mib;
  for (guint t = 0; t < bounds->n_tables; t++)
    fill_table (bounds, t);
  fill_found (bounds);
  fill_forced (bounds);
}

/**
 * lid_plan_bounds_work:
 *
 * Returns: how many numbers go into one table, each as often as a column has steps
 */
guint64
lid_plan_bounds_work (const LidPlanBounds *bounds)
{
  guint64 work = 0;

  for (guint i = 0; i < bounds->columns->columns->len; i++)
    work += (guint64)bounds->steps[lid_plan_columns_at (bounds->columns, i)->group]->len
            * bounds->n_filled * bounds->n_hands;
  return work;
}

/**
 * lid_plan_bounds_fill_lean:
 * @bounds: (inout): its last table becomes that of the prices in the steps (lean.c)
 */
void
lid_plan_bounds_fill_lean (LidPlanBounds *bounds)
{
  if (bounds->table[2] == NULL)
    bounds->table[2]
        = g_new (gint64, lid_plan_bounds_index (bounds, bounds->columns->columns->len + 1, 0, 0));
  fill_table (bounds, 2);
}
