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
 * what is found (fillings.c), and where hands are not counted at all they tell nothing.
 *
 * A second floor is there where what is found may leave: by hands instead of modules. Of a kind of
 * which f are found and n used, at most the lesser number stays in its slots, so that n − f more or
 * f − n less are as many hands at the least. */
#include "planner/floor.h"

#include <string.h>

#define MOST_WORK 80000000u
#define MOST_KEPT 1000000u /* entries of all layers */

static guint
step_of (const LidPlanFloor *floor, const LidPlanKind *kind)
{
  return (guint)(lid_module_capacity (kind->module) * floor->unit / floor->bounds->unit_mib);
}

/* Found modules of a kind that have to be used, in units. */
static guint
least_of (const LidPlanFloor *floor, const LidPlanKind *kind)
{
  return floor->all_used ? (kind->found + floor->unit - 1) / floor->unit : 0;
}

/* What n of a kind count for: modules, or hands; in units. */
static guint
weight_of (const LidPlanFloor *floor, const LidPlanKind *kind, guint n)
{
  guint used = n * floor->unit;

  if (!floor->of_hands)
    return n;
  return (used > kind->found ? used - kind->found : kind->found - used) / floor->unit;
}

static gboolean
is_exact (const LidPlanFloor *floor)
{
  const LidCandidates *candidates = floor->bounds->candidates;
  guint64 work = 0;

  for (guint k = 0; k < candidates->kinds->len; k++)
    {
      const LidPlanKind *kind = lid_candidates_kind (candidates, k);

      if (lid_module_capacity (kind->module) * floor->unit % floor->bounds->unit_mib != 0)
        return FALSE;
      work += (guint64)floor->n_mib * floor->n_modules
              * (MIN (kind->supply / floor->unit, floor->n_modules) + 1);
    }
  return work <= MOST_WORK;
}

/* Adds up to @most of one kind: @from without it, @to with it. */
static void
add_kind (
    const LidPlanFloor *floor, const LidPlanKind *kind, guint most, const gint64 *from, gint64 *to)
{
  guint step = step_of (floor, kind);

  for (gsize i = 0; i < (gsize)floor->n_mib * floor->n_modules; i++)
    to[i] = LID_PLAN_OUT_OF_REACH;
  for (guint n = least_of (floor, kind); n <= most; n++)
    {
      gint64 cost = lid_candidates_cost (kind, n * floor->unit);
      guint weight = weight_of (floor, kind, n);

      for (guint mib = n * step; mib < floor->n_mib; mib++)
        {
          const gint64 *rest = from + (gsize)(mib - n * step) * floor->n_modules;
          gint64 *row = to + (gsize)mib * floor->n_modules + weight;

          for (guint m = 0; m + weight < floor->n_modules; m++)
            row[m] = MIN (row[m], rest[m] + cost);
        }
    }
}

static gint64 *
layer_at (const LidPlanFloor *floor, guint layer)
{
  return floor->layers + (gsize)(layer % floor->n_kept) * floor->n_mib * floor->n_modules;
}

/* @most: per kind, how many at most, in units; they may be more than are to be had. */
static void
make (LidPlanFloor *floor, gint64 *least, const guint *most)
{
  gsize n = (gsize)floor->n_mib * floor->n_modules;
  const gint64 *last;

  for (gsize i = 0; i < n; i++)
    floor->layers[i] = LID_PLAN_OUT_OF_REACH;
  floor->layers[0] = 0;
  floor->n_layers = 0;
  for (guint k = 0; k < floor->bounds->candidates->kinds->len; k++)
    {
      const LidPlanKind *kind = lid_candidates_kind (floor->bounds->candidates, k);
      guint here = MIN (MIN (most[k], kind->supply / floor->unit), floor->n_places);

      if (here == 0 && least_of (floor, kind) == 0 && (!floor->of_hands || kind->found == 0))
        continue;
      add_kind (floor, kind, here, layer_at (floor, floor->n_layers),
                layer_at (floor, floor->n_layers + 1));
      floor->of_layer[floor->n_layers++] = k;
    }
  last = layer_at (floor, floor->n_layers);
  for (guint mib = 0; mib < floor->n_mib; mib++)
    for (guint m = 0; m < floor->n_modules; m++)
      {
        gsize at = (gsize)mib * floor->n_modules + m;

        least[at] = MIN (last[at], LID_PLAN_OUT_OF_REACH);
        if (m > 0)
          least[at] = MIN (least[at], least[at - 1]);
      }
}

static void
make_room (LidPlanFloor *floor)
{
  guint n_kinds = floor->bounds->candidates->kinds->len;
  gsize n = (gsize)floor->n_mib * floor->n_modules;

  floor->n_kept = n_kinds + 1;
  if (n * floor->n_kept > MOST_KEPT)
    floor->n_kept = 2;
  floor->layers = g_new (gint64, n * floor->n_kept);
  floor->least = g_new (gint64, n);
  floor->of_pass = g_new (gint64, n);
  floor->most = g_new (guint, n_kinds + 1);
  floor->of_layer = g_new (guint, n_kinds + 1);
}

/**
 * lid_plan_floor_init:
 * @floor: (out): to be given back with lid_plan_floor_clear()
 * @bounds: its steps of capacity are used; where they do not divide every module, or there is too
 * much to do, there is no floor
 * @wish: how far hands may go
 * @of_hands: by hands instead of modules; only where what is found may leave and hands count
 */
void
lid_plan_floor_init (LidPlanFloor *floor,
                     const LidPlanBounds *bounds,
                     const LidWish *wish,
                     gboolean of_hands)
{
  const LidCandidates *candidates = bounds->candidates;

  *floor = (LidPlanFloor){ .bounds = bounds,
                           .all_used = wish->hands != LID_HANDS_PULL,
                           .n_mib = bounds->n_mib,
                           .of_hands = of_hands,
                           .by_hands = bounds->n_hands > 1 };
  floor->unit = MAX (bounds->columns->n_channels, 1);
  floor->n_places = bounds->columns->n_free / floor->unit;
  for (guint i = 0; i < candidates->n_slots; i++)
    floor->at_hand += candidates->found_kind[i] != LID_NOWHERE;
  floor->n_modules = floor->n_places + (of_hands ? floor->at_hand / floor->unit : 0) + 1;
  for (guint k = 0; k < candidates->kinds->len && !floor->all_used; k++)
    {
      const LidPlanKind *kind = lid_candidates_kind (candidates, k);

      floor->by_hands = floor->by_hands && (kind->found == 0 || kind->supply == kind->found);
    }
  if (bounds->columns->columns->len == 0 || !is_exact (floor)
      || (of_hands && (floor->all_used || bounds->n_hands <= 1)))
    return;
  make_room (floor);
  for (guint k = 0; k < candidates->kinds->len; k++)
    floor->most[k] = G_MAXUINT;
  make (floor, floor->least, floor->most);
  memcpy (floor->of_pass, floor->least, (gsize)floor->n_mib * floor->n_modules * sizeof (gint64));
}

void
lid_plan_floor_clear (LidPlanFloor *floor)
{
  g_clear_pointer (&floor->least, g_free);
  g_clear_pointer (&floor->of_pass, g_free);
  g_clear_pointer (&floor->most, g_free);
  g_clear_pointer (&floor->layers, g_free);
  g_clear_pointer (&floor->of_layer, g_free);
}

/* The most modules a column of the group holds in a filling of the pass, in units. */
static guint
most_modules (const LidPlanFloor *floor, guint group)
{
  const GArray *steps = floor->bounds->steps[group];
  guint most = 0;

  for (guint s = 0; s < steps->len; s++)
    {
      const GArray *members = g_array_index (steps, LidPlanStep, s).members;

      for (guint i = 0; i < members->len; i++)
        most = MAX (most, lid_plan_fillings_at (floor->bounds->fillings, group,
                                                g_array_index (members, guint, i))
                              ->n_modules);
    }
  return most / floor->unit;
}

/* How many of each kind one channel of a group holds in a filling of the pass; adds them up. */
static void
count_group (const LidPlanFloor *floor, guint group, guint times, guint n_slots, guint *most)
{
  const GArray *steps = floor->bounds->steps[group];
  guint n_kinds = floor->bounds->candidates->kinds->len;
  g_autofree guint *of_group = g_new0 (guint, n_kinds + 1);

  for (guint s = 0; s < steps->len; s++)
    {
      const GArray *members = g_array_index (steps, LidPlanStep, s).members;

      for (guint i = 0; i < members->len; i++)
        {
          const int *kinds = lid_plan_fillings_at (floor->bounds->fillings, group,
                                                   g_array_index (members, guint, i))
                                 ->kinds;

          for (guint a = 0; a < n_slots; a++)
            {
              guint n = 0;

              for (guint b = 0; b < n_slots; b++)
                n += kinds[b] == kinds[a];
              if (kinds[a] != LID_NOWHERE)
                of_group[kinds[a]] = MAX (of_group[kinds[a]], n);
            }
        }
    }
  for (guint k = 0; k < n_kinds; k++)
    most[k] += of_group[k] * times;
}

/**
 * lid_plan_floor_narrow:
 * @floor: (inout): becomes that of the pass whose steps the bounds hold: only what some filling of
 * it holds, and as much of it as all channels hold then
 */
void
lid_plan_floor_narrow (LidPlanFloor *floor)
{
  const GArray *columns = floor->bounds->columns->columns;
  guint n_kinds = floor->bounds->candidates->kinds->len;
  g_autofree guint *most = g_new0 (guint, n_kinds + 1);

  if (floor->least == NULL)
    return;
  floor->most_modules = 0;
  for (guint i = 0, n; i < columns->len; i += n)
    {
      const LidPlanColumn *column = lid_plan_columns_at (floor->bounds->columns, i);

      for (n = 1; i + n < columns->len
                  && lid_plan_columns_at (floor->bounds->columns, i + n)->group == column->group;)
        n++;
      count_group (floor, column->group, n, column->n_slots, most);
      floor->most_modules += n * most_modules (floor, column->group);
    }
  for (guint k = 0; k < n_kinds; k++)
    most[k] = MIN (most[k], floor->n_places);
  if (memcmp (most, floor->most, n_kinds * sizeof (guint)) == 0)
    return;
  memcpy (floor->most, most, n_kinds * sizeof (guint));
  make (floor, floor->of_pass, most);
}

static guint
most_for (const LidPlanFloor *floor, gboolean of_pass, guint hands)
{
  guint most = floor->n_modules - 1;

  if (floor->of_hands)
    return MIN (most, hands / floor->unit);
  if (floor->by_hands)
    most = MIN (most, (hands + floor->at_hand) / floor->unit);
  return of_pass ? MIN (most, floor->most_modules) : most;
}

/**
 * lid_plan_floor_cost:
 * @of_pass: of the pass; otherwise of all passes
 * @mib: capacity, in steps
 * @hands: as the target counts them; of a floor of hands all of them, at most
 *
 * Returns: no population of that capacity and those hands costs less; LID_PLAN_OUT_OF_REACH where
 * there is none
 */
gint64
lid_plan_floor_cost (const LidPlanFloor *floor, gboolean of_pass, guint mib, guint hands)
{
  if (floor->least == NULL)
    return 0;
  return (of_pass ? floor->of_pass
                  : floor->least)[(gsize)mib * floor->n_modules + most_for (floor, of_pass, hands)];
}

/* How many of the kind of @layer are in the cheapest way to the place @at of it, which becomes that
 * of the layer before. */
static guint
step_back (const LidPlanFloor *floor, guint layer, guint *mib, guint *modules)
{
  const LidPlanKind *kind = lid_candidates_kind (floor->bounds->candidates, floor->of_layer[layer]);
  const gint64 *from = layer_at (floor, layer), *to = layer_at (floor, layer + 1);
  gint64 cost = to[(gsize)*mib * floor->n_modules + *modules];
  guint step = step_of (floor, kind), n = least_of (floor, kind);

  for (; n * step <= *mib && n <= *modules && n * floor->unit <= kind->supply; n++)
    if (from[(gsize)(*mib - n * step) * floor->n_modules + *modules - n]
            + lid_candidates_cost (kind, n * floor->unit)
        == cost)
      break;
  n = MIN (n, *modules);
  *mib -= MIN (n * step, *mib);
  *modules -= n;
  return n;
}

/**
 * lid_plan_floor_mix:
 * @mib: capacity, in steps
 * @hands: as the target counts them
 * @counts: (out): per kind, how many are in a cheapest mix of modules, in units
 *
 * Returns: whether there is one, and it was kept how it came to be
 */
gboolean
lid_plan_floor_mix (const LidPlanFloor *floor, guint mib, guint hands, guint *counts)
{
  guint modules = most_for (floor, TRUE, hands);
  gint64 cost;

  memset (counts, 0, floor->bounds->candidates->kinds->len * sizeof (guint));
  if (floor->least == NULL || floor->n_kept <= floor->n_layers)
    return FALSE;
  cost = floor->of_pass[(gsize)mib * floor->n_modules + modules];
  if (cost >= LID_COST_UNKNOWN)
    return FALSE;
  while (layer_at (floor, floor->n_layers)[(gsize)mib * floor->n_modules + modules] != cost)
    modules--;
  for (guint layer = floor->n_layers; layer-- > 0;)
    counts[floor->of_layer[layer]] = step_back (floor, layer, &mib, &modules);
  return TRUE;
}
