/* SPDX-License-Identifier: GPL-3.0-or-later */
/* front.c: what beats what (product.md 8, settled reading 11).
 *
 *   at least so much capacity   whole, money, hands
 *   the most for a sum          usable capacity, whole, hands
 *   rearrange                   whole, hands
 *   (the cheapest of all)       money
 *
 * One population beats another if it is as good in each and better in one. Of
 * those that are equal in each one is shown, chosen by the ties: money, hands,
 * fewest findings that lose, fewest unsure, most modules staying, fewest bins,
 * order of slots. Every comparison is of integers. */
#include "planner/front.h"

#include <string.h>

void
lid_plan_entry_free (LidPlanEntry *entry)
{
  if (entry == NULL)
    return;
  g_free (entry->kinds);
  g_free (entry);
}

LidPlanEntry *
lid_plan_entry_copy (const LidPlanEntry *entry, guint n_slots)
{
  LidPlanEntry *copy = g_memdup2 (entry, sizeof *entry);

  copy->kinds = g_memdup2 (entry->kinds, (n_slots + 1) * sizeof (int));
  return copy;
}

void
lid_plan_front_init (LidPlanFront *front, LidWishWhat what, guint n_slots)
{
  front->what = what;
  front->n_slots = n_slots;
  front->entries = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_plan_entry_free);
}

void
lid_plan_front_clear (LidPlanFront *front)
{
  g_clear_pointer (&front->entries, g_ptr_array_unref);
}

/* 1 where @a is better in one respect and worse in none, 0 where they are equal
 * in all, -1 else. */
static int
weigh (LidWishWhat what, const LidPlanVector *a, const LidPlanVector *b)
{
  int speed, one = 0, other = 0;

  if (what == LID_WISH_CHEAPEST)
    return (a->cost < b->cost) - (a->cost > b->cost);
  if (a->rated != b->rated)
    return -1;
  if (a->hands > b->hands)
    return -1;
  if (what == LID_WISH_CAPACITY)
    one = (a->cost < b->cost) - (a->cost > b->cost);
  else if (what == LID_WISH_SPEND)
    one = (a->usable_mib > b->usable_mib) - (a->usable_mib < b->usable_mib);
  if (one < 0)
    return -1;
  speed = lid_ratio_compare (a->speed, b->speed);
  if (speed < 0)
    return -1;
  other = a->hands < b->hands;
  return one > 0 || speed > 0 || other ? 1 : 0;
}

/**
 * lid_plan_front_same:
 *
 * Returns: whether two populations are one option
 */
gboolean
lid_plan_front_same (LidWishWhat what, const LidPlanVector *a, const LidPlanVector *b)
{
  return weigh (what, a, b) == 0;
}

/**
 * lid_plan_front_covers:
 * @front: what was found so far
 * @best: bounds: as much or as little as a population can at best have in each
 * respect, the cost included
 *
 * Returns: whether no population within those bounds could add anything: each
 * would be beaten, or be equal and no cheaper
 */
gboolean
lid_plan_front_covers (LidPlanFront *front, const LidPlanVector *best)
{
  guint n = front->entries->len;

  for (guint i = 0; i < n; i++)
    {
      guint at = (front->last + i) % n;
      const LidPlanEntry *entry = front->entries->pdata[at];
      int weight = weigh (front->what, &entry->vector, best);

      if (weight < 0 || (weight == 0 && entry->vector.cost > best->cost))
        continue;
      front->last = at;
      return TRUE;
    }
  return FALSE;
}

/**
 * lid_plan_front_bar:
 * @entry: of the front
 * @best: as above; its cost is not looked at
 *
 * Returns: the cost from which on @entry alone covers populations within those bounds; G_MAXINT64
 * where it does at none
 */
gint64
lid_plan_front_bar (const LidPlanFront *front, const LidPlanEntry *entry, const LidPlanVector *best)
{
  LidPlanVector vector = *best;
  int weight;

  vector.cost = entry->vector.cost;
  weight = weigh (front->what, &entry->vector, &vector);
  if (weight < 0)
    return G_MAXINT64;
  return weight > 0 && front->what != LID_WISH_CAPACITY ? 0 : entry->vector.cost;
}

/**
 * lid_plan_front_compare_ties:
 *
 * Returns: negative where @a is to be shown rather than @b, of two with equal
 * vectors
 */
int
lid_plan_front_compare_ties (const LidPlanEntry *a, const LidPlanEntry *b, guint n_slots)
{
  if (a->vector.cost != b->vector.cost)
    return a->vector.cost < b->vector.cost ? -1 : 1;
  if (a->vector.hands != b->vector.hands)
    return a->vector.hands < b->vector.hands ? -1 : 1;
  if (a->loses != b->loses)
    return a->loses < b->loses ? -1 : 1;
  if (a->unsure != b->unsure)
    return a->unsure < b->unsure ? -1 : 1;
  if (a->staying != b->staying)
    return a->staying > b->staying ? -1 : 1;
  if (a->bins != b->bins)
    return a->bins < b->bins ? -1 : 1;
  for (guint i = 0; i < n_slots; i++)
    if (a->kinds[i] != b->kinds[i])
      return (guint)a->kinds[i] < (guint)b->kinds[i] ? -1 : 1; /* empty, -1, comes last */
  return 0;
}

/**
 * lid_plan_front_add:
 * @front: what was found so far
 * @entry: a population nothing stops and that reaches the wish
 *
 * Returns: whether it went in: nothing there beats it, and nothing equal comes
 * first by the ties
 */
gboolean
lid_plan_front_add (LidPlanFront *front, const LidPlanEntry *entry)
{
  for (guint i = 0; i < front->entries->len; i++)
    {
      const LidPlanEntry *other = front->entries->pdata[i];
      int weight = weigh (front->what, &other->vector, &entry->vector);

      if (weight > 0
          || (weight == 0 && lid_plan_front_compare_ties (other, entry, front->n_slots) <= 0))
        return FALSE;
    }
  for (guint i = front->entries->len; i-- > 0;)
    {
      const LidPlanEntry *other = front->entries->pdata[i];

      if (weigh (front->what, &entry->vector, &other->vector) >= 0)
        g_ptr_array_remove_index (front->entries, i);
    }
  g_ptr_array_add (front->entries, lid_plan_entry_copy (entry, front->n_slots));
  return TRUE;
}

static int
compare_entries (gconstpointer a, gconstpointer b)
{
  const LidPlanEntry *x = *(LidPlanEntry *const *)a, *y = *(LidPlanEntry *const *)b;
  int speed;

  if (x->vector.cost != y->vector.cost)
    return x->vector.cost < y->vector.cost ? -1 : 1;
  if (x->vector.hands != y->vector.hands)
    return x->vector.hands < y->vector.hands ? -1 : 1;
  if (x->vector.rated != y->vector.rated)
    return x->vector.rated ? -1 : 1;
  speed = lid_ratio_compare (y->vector.speed, x->vector.speed);
  if (speed != 0)
    return speed;
  return x->vector.usable_mib > y->vector.usable_mib ? -1
                                                     : x->vector.usable_mib < y->vector.usable_mib;
}

/**
 * lid_plan_front_sort:
 *
 * The cheapest first, then fewest hands, then the fastest; without a price
 * last.
 */
void
lid_plan_front_sort (LidPlanFront *front)
{
  g_ptr_array_sort (front->entries, compare_entries);
}
