/* SPDX-License-Identifier: GPL-3.0-or-later */
/* floor.c: what a capacity costs at the least, wherever the modules go.
 *
 * The bounds of bounds.c know the slots but take every module for the cheapest of its kind; here it
 * is the other way round: prices are exact, row by row, so is supply, and so is what must be used
 * again, but any modules that are no more than the slots are taken to fit. Kind after kind, the
 * least cost for each capacity and number of modules; the search takes the larger of the two. Where
 * a population is found that costs no more than the floor, its target is settled at once.
 *
 * A module of a plan is found, wherever that was, or it costs a hand: so hands bound the number of
 * modules. Where what is found may leave, that is true only while no found kind can be had beyond
 * what is found (fillings.c), and where hands are not counted at all they tell nothing. */
#include "planner/floor.h"

#define MOST_WORK 80000000u

typedef struct
{
  LidPlanFloor *floor;
  const LidPlanBounds *bounds;
  gboolean all_used; /* what is found is used again */
} Maker;

static gboolean
is_exact (const Maker *maker)
{
  guint64 work = 0;

  for (guint k = 0; k < maker->bounds->candidates->kinds->len; k++)
    {
      const LidPlanKind *kind = lid_candidates_kind (maker->bounds->candidates, k);

      if (lid_module_capacity (kind->module) * maker->floor->unit % maker->bounds->unit_mib != 0)
        return FALSE;
      work += (guint64)maker->floor->n_mib * maker->floor->n_modules
              * (MIN (kind->supply / maker->floor->unit, maker->floor->n_modules) + 1);
    }
  return work <= MOST_WORK;
}

/* Adds one kind: @from without it, @to with it. */
static void
add_kind (const Maker *maker, const LidPlanKind *kind, const gint64 *from, gint64 *to)
{
  const LidPlanFloor *floor = maker->floor;
  guint step = (guint)(lid_module_capacity (kind->module) * floor->unit / maker->bounds->unit_mib);
  guint least = maker->all_used ? (kind->found + floor->unit - 1) / floor->unit : 0;
  guint most = MIN (kind->supply / floor->unit, floor->n_modules - 1);

  for (gsize i = 0; i < (gsize)floor->n_mib * floor->n_modules; i++)
    to[i] = LID_PLAN_OUT_OF_REACH;
  for (guint n = least; n <= most; n++)
    {
      gint64 cost = lid_candidates_cost (kind, n * floor->unit);

      for (guint mib = n * step; mib < floor->n_mib; mib++)
        {
          const gint64 *rest = from + (gsize)(mib - n * step) * floor->n_modules;
          gint64 *row = to + (gsize)mib * floor->n_modules + n;

          for (guint m = 0; m + n < floor->n_modules; m++)
            row[m] = MIN (row[m], rest[m] + cost);
        }
    }
}

static void
make (const Maker *maker)
{
  LidPlanFloor *floor = maker->floor;
  gsize n = (gsize)floor->n_mib * floor->n_modules;
  g_autofree gint64 *other = g_new (gint64, n);

  floor->least = g_new (gint64, n);
  for (gsize i = 0; i < n; i++)
    floor->least[i] = LID_PLAN_OUT_OF_REACH;
  floor->least[0] = 0;
  for (guint k = 0; k < maker->bounds->candidates->kinds->len; k++)
    {
      gint64 *swap = floor->least;

      add_kind (maker, lid_candidates_kind (maker->bounds->candidates, k), floor->least, other);
      floor->least = g_steal_pointer (&other);
      other = swap;
    }
  for (guint mib = 0; mib < floor->n_mib; mib++)
    for (guint m = 1; m < floor->n_modules; m++)
      {
        gint64 *at = floor->least + (gsize)mib * floor->n_modules + m;

        *at = MIN (*at, at[-1]);
      }
}

/**
 * lid_plan_floor_init:
 * @floor: (out): to be given back with lid_plan_floor_clear()
 * @bounds: its steps of capacity are used; where they do not divide every module, or there is too
 * much to do, there is no floor
 * @wish: how far hands may go
 */
void
lid_plan_floor_init (LidPlanFloor *floor, const LidPlanBounds *bounds, const LidWish *wish)
{
  const LidCandidates *candidates = bounds->candidates;
  Maker maker = { floor, bounds, wish->hands != LID_HANDS_PULL };

  *floor = (LidPlanFloor){ .n_mib = bounds->n_mib, .by_hands = bounds->n_hands > 1 };
  floor->unit = MAX (bounds->columns->n_channels, 1);
  floor->n_modules = bounds->columns->n_free / floor->unit + 1;
  for (guint i = 0; i < candidates->n_slots; i++)
    floor->at_hand += candidates->found_kind[i] != LID_NOWHERE;
  for (guint k = 0; k < candidates->kinds->len && !maker.all_used; k++)
    {
      const LidPlanKind *kind = lid_candidates_kind (candidates, k);

      floor->by_hands = floor->by_hands && (kind->found == 0 || kind->supply == kind->found);
    }
  if (bounds->columns->columns->len > 0 && is_exact (&maker))
    make (&maker);
}

void
lid_plan_floor_clear (LidPlanFloor *floor)
{
  g_clear_pointer (&floor->least, g_free);
}

/**
 * lid_plan_floor_cost:
 * @mib: capacity, in steps
 * @hands: as the target counts them
 *
 * Returns: no population of that capacity and those hands costs less; LID_PLAN_OUT_OF_REACH where
 * there is none
 */
gint64
lid_plan_floor_cost (const LidPlanFloor *floor, guint mib, guint hands)
{
  guint most = floor->n_modules - 1;

  if (floor->least == NULL)
    return 0;
  if (floor->by_hands)
    most = MIN (most, (hands + floor->at_hand) / floor->unit);
  return floor->least[(gsize)mib * floor->n_modules + most];
}
