/* SPDX-License-Identifier: GPL-3.0-or-later */
/* node-mixes-bar.c: for each number of hands and each T, the cost from which on the front covers.
 *
 * What covers a number of hands covers more of them too, and what covers a T covers a longer one.
 */
#include "planner/node-mixes.h"

static gint64 *
bar_at (const LidPlanNodeMixes *mixes, guint hands, guint time)
{
  guint row = MIN (hands, mixes->n_bar - 1);

  return &g_array_index (mixes->bar, gint64, (gsize)row * mixes->times->len + time);
}

static LidPlanVector
vector_of (const LidPlanSearch *search, gint64 cost, guint hands, gint64 time)
{
  LidPlanVector vector = search->best;

  vector.cost = MIN (cost, LID_COST_UNKNOWN);
  vector.hands = hands;
  vector.speed = (LidRatio){ search->target_size * search->pass.rate,
                             MAX (MAX (time, search->target_time), 1) };
  return vector;
}

/* The lowest T, as an index, at which an entry covers anything with so many hands. */
static guint
first_covered (const LidPlanSearch *search,
               const LidPlanNodeMixes *mixes,
               const LidPlanEntry *entry,
               guint hands)
{
  guint from = 0, to = mixes->times->len;

  while (from < to)
    {
      guint at = (from + to) / 2;
      LidPlanVector vector = vector_of (search, 0, hands, g_array_index (mixes->times, gint64, at));

      if (lid_plan_front_bar (search->front, entry, &vector) < G_MAXINT64)
        to = at;
      else
        from = at + 1;
    }
  return from;
}

static void
lower_bar (const LidPlanSearch *search, LidPlanNodeMixes *mixes, const LidPlanEntry *entry)
{
  guint hands = entry->vector.hands;

  for (guint row = hands; row < MIN (hands + 2, mixes->n_bar); row++)
    for (guint at = first_covered (search, mixes, entry, row); at < mixes->times->len; at++)
      {
        LidPlanVector vector = vector_of (search, 0, row, g_array_index (mixes->times, gint64, at));
        gint64 cost = lid_plan_front_bar (search->front, entry, &vector), *bar;

        bar = bar_at (mixes, row, at);
        *bar = MIN (*bar, cost);
      }
}

/**
 * lid_plan_node_mixes_raise_bar:
 * @search: at a target
 * @mixes: (inout): with its times
 *
 * Works out the bar of the target's capacity.
 */
void
lid_plan_node_mixes_raise_bar (const LidPlanSearch *search, LidPlanNodeMixes *mixes)
{
  mixes->n_bar = 2 * (search->columns->n_free + search->floor.at_hand) + 2;
  g_array_set_size (mixes->bar, mixes->n_bar * mixes->times->len);
  for (guint i = 0; i < mixes->bar->len; i++)
    g_array_index (mixes->bar, gint64, i) = G_MAXINT64;
  for (guint i = 0; i < search->front->entries->len; i++)
    {
      const LidPlanEntry *entry = search->front->entries->pdata[i];

      if (entry->vector.rated == search->best.rated)
        lower_bar (search, mixes, entry);
    }
  for (guint hands = 1; hands < mixes->n_bar; hands++)
    for (guint at = 0; at < mixes->times->len; at++)
      {
        gint64 *bar = bar_at (mixes, hands, at);

        *bar = MIN (*bar, *bar_at (mixes, hands - 1, at));
      }
}

/**
 * lid_plan_node_mixes_bar:
 * @time: an index into the times
 *
 * Returns: populations of the capacity with so many hands and that T that cost as much are covered;
 *   G_MAXINT64: none is, whatever it costs
 */
gint64
lid_plan_node_mixes_bar (const LidPlanNodeMixes *mixes, guint hands, guint time)
{
  return *bar_at ((LidPlanNodeMixes *)mixes, hands, time);
}
