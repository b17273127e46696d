/* SPDX-License-Identifier: GPL-3.0-or-later */
/* node-mixes-totals.c: which mixes of the whole machine matter at all.
 *
 * Where the lists are too many to be listed for every capacity, one capacity is looked at by
 * itself: first all that the machine could hold, by number of modules and cost alone. The hands are
 * at the least those of every module that is not found, and of the found ones those that are too
 * few or too many. Where the front covers that cost with those hands, even at the least T of the
 * capacity, the mix is settled wherever its modules go; few are not, and nodes need to be listed
 * only as far as they are part of those. */
#include "planner/node-mixes.h"

#define MOST_TOTALS 3000u
#define LOOKS_A_STEP 50u

typedef struct
{
  const LidPlanSearch *search;
  LidPlanNodeMixes *mixes;
  guint order[LID_PLAN_CLASSES]; /* classes: what is found first, then the large ones */
  gint64
      per_step[LID_PLAN_CLASSES]; /* a cost: of so much capacity, by the classes from here on … */
  guint steps[LID_PLAN_CLASSES];  /* … in so many steps */
  guint largest[LID_PLAN_CLASSES]; /* of them, in steps */
  guint places, looks;
} Totals;

static int
compare_classes (gconstpointer a, gconstpointer b, gpointer data)
{
  const LidPlanNodeMixes *mixes = data;
  guint x = *(const guint *)a, y = *(const guint *)b;
  gboolean x_found = mixes->class_kind[x] < G_MAXUINT, y_found = mixes->class_kind[y] < G_MAXUINT;

  if (x_found != y_found)
    return x_found ? -1 : 1;
  if (mixes->class_mib[x] != mixes->class_mib[y])
    return mixes->class_mib[x] > mixes->class_mib[y] ? -1 : 1;
  return (x > y) - (x < y);
}

/* The cheapest capacity of the classes from one on, by their cheapest module. */
static void
set_rest (Totals *totals)
{
  const LidPlanNodeMixes *mixes = totals->mixes;

  for (guint i = mixes->n_classes; i-- > 0;)
    {
      guint class = totals->order[i], mib = mixes->class_mib[class];
      gint64 price = g_array_index (mixes->cost[class], gint64, 1);
      gboolean last = i + 1 == mixes->n_classes;

      totals->largest[i] = last ? mib : MAX (mib, totals->largest[i + 1]);
      totals->per_step[i] = price;
      totals->steps[i] = mib;
      if (!last
          && (price >= LID_COST_UNKNOWN
              || (totals->per_step[i + 1] < LID_COST_UNKNOWN
                  && totals->per_step[i + 1] * mib < price * totals->steps[i + 1])))
        {
          totals->per_step[i] = totals->per_step[i + 1];
          totals->steps[i] = totals->steps[i + 1];
        }
    }
}

/* Hands that so many of a class cost, wherever they are. */
static guint
hands_of (const Totals *totals, guint class, guint n)
{
  guint kind = totals->mixes->class_kind[class], used = n * totals->search->floor.unit, found;

  if (kind == G_MAXUINT)
    return used;
  found = lid_candidates_kind (totals->search->judge->candidates, kind)->found;
  return used > found ? used - found : found - used;
}

/* Hands are those of modules that are not found, of found ones beyond as many as are found where
 * those may leave, and the rest: what is found and leaves its slot. How many of the latter the mix
 * may cost before the front covers it. */
static void
add_total (Totals *totals, guint64 mix, gint64 cost)
{
  const LidPlanSearch *search = totals->search;
  LidPlanNodeMixes *mixes = totals->mixes;
  gboolean pull = search->judge->wish->hands == LID_HANDS_PULL;
  guint hands = 0, before = lid_plan_node_mixes_size (mix & mixes->strange) * search->floor.unit;
  LidPlanMixTotal total = { .mix = mix };

  if (pull)
    before += lid_plan_targets_apart (search);
  for (guint c = 0; c < mixes->n_classes && pull; c++)
    if (mixes->class_kind[c] < G_MAXUINT)
      {
        guint used = lid_plan_node_mixes_count (mix, c) * search->floor.unit;
        guint found = lid_candidates_kind (search->judge->candidates, mixes->class_kind[c])->found;

        before += used > found ? used - found : 0;
      }
  while (hands < mixes->n_bar && cost < lid_plan_node_mixes_bar (mixes, hands, 0))
    hands++;
  if (hands <= before)
    return;
  total.waste = hands - 1 - before;
  g_array_append_val (mixes->totals, total);
}

/* Modules of classes from @at on; whether they are not too many mixes. */
static gboolean
list_from (Totals *totals, guint at, guint mib, guint places, guint64 mix, guint hands, gint64 cost)
{
  LidPlanNodeMixes *mixes = totals->mixes;
  guint class, size, unit = totals->search->floor.unit;
  gint64 least = cost;

  totals->looks++;
  if (at < mixes->n_classes && mib > 0)
    {
      guint more = (mib + totals->largest[at] - 1) / totals->largest[at];

      if (more > places)
        return TRUE;
      if (mixes->class_kind[totals->order[at]] == G_MAXUINT)
        hands += more * unit;
      /* A sum that has no price is never multiplied. */
      if (totals->per_step[at] >= LID_COST_UNKNOWN)
        least = LID_COST_UNKNOWN;
      else
        least += totals->per_step[at] * (gint64)mib / totals->steps[at];
      if (least >= lid_plan_node_mixes_bar (mixes, hands, 0))
        return TRUE;
      if (mixes->class_kind[totals->order[at]] == G_MAXUINT)
        hands -= more * unit;
    }
  else if (mib > 0 || cost >= lid_plan_node_mixes_bar (mixes, hands, 0))
    return TRUE;
  else if (at == mixes->n_classes)
    {
      add_total (totals, mix, cost);
      return mixes->totals->len <= MOST_TOTALS;
    }
  class = totals->order[at];
  size = mixes->class_mib[class];
  for (guint n = 0; n < mixes->cost[class]->len && n <= places && n * size <= mib; n++)
    if (!list_from (totals, at + 1, mib - n * size, places - n, mix + ((guint64)n << (8 * class)),
                    hands + hands_of (totals, class, n),
                    MIN (cost + g_array_index (mixes->cost[class], gint64, n), LID_COST_UNKNOWN)))
      return FALSE;
  return TRUE;
}

/* Found modules of kinds that no filling of the pass holds leave. */
static guint
hands_without_class (const LidPlanSearch *search, const LidPlanNodeMixes *mixes)
{
  guint hands = 0;

  for (guint i = 0; i < search->n_owned; i++)
    if (mixes->class_of[search->owned_kinds[i]] == LID_PLAN_CLASSES)
      hands += lid_candidates_kind (search->judge->candidates, search->owned_kinds[i])->found;
  return hands;
}

/**
 * lid_plan_node_mixes_list_totals:
 * @search: at a target
 * @mixes: (inout): ready; the bar it had is lost
 *
 * Lists the mixes of the target's capacity that the front does not cover.
 *
 * Returns: whether they are few
 */
gboolean
lid_plan_node_mixes_list_totals (LidPlanSearch *search, LidPlanNodeMixes *mixes)
{
  gint64 time = MAX (search->target_time, 1);
  Totals totals = { .search = search, .mixes = mixes };
  gboolean few;

  for (guint c = 0; c < mixes->n_classes; c++)
    totals.order[c] = c;
  g_qsort_with_data (totals.order, (gint)mixes->n_classes, sizeof (guint), compare_classes, mixes);
  set_rest (&totals);
  g_array_set_size (mixes->times, 0);
  g_array_append_val (mixes->times, time);
  lid_plan_node_mixes_raise_bar (search, mixes);
  g_array_set_size (mixes->totals, 0);
  few = list_from (&totals, 0, search->target_mib, search->columns->n_free / search->floor.unit, 0,
                   hands_without_class (search, mixes), 0);
  lid_plan_search_goes_on (search, totals.looks / LOOKS_A_STEP);
  return few && search->budget > 0;
}
