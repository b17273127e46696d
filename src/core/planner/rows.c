/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rows.c: of the rows of one kind the cheapest, as many as a machine has slots for.
 *
 * Of modules that cannot be told apart the cheaper one is always taken first, and no plan has more
 * than one for each slot: of 100,000 rows a handful is ever bought from. So rows are gathered a few
 * at a time; of those at hand the ones that would fill every slot are kept, and a row that is
 * dearer than the last of them is passed over without being looked at again. */
#include "planner/candidates.h"

#define ROOM 64u /* rows beyond those that are kept, before they are sorted again */

/* Cheapest first, without a price last; then bin and place in the list, so that
 * the order is one.
 */
static int
compare_goods (gconstpointer a, gconstpointer b, gpointer data)
{
  const LidGood *goods = data;
  guint i = *(const guint *)a, k = *(const guint *)b;
  guint64 x = (guint64)goods[i].price_minor, y = (guint64)goods[k].price_minor;
  int by_bin;

  if (x != y) /* not told is -1: the largest of unsigned numbers */
    return x < y ? -1 : 1;
  by_bin = g_strcmp0 (goods[i].bin, goods[k].bin);
  return by_bin != 0 ? by_bin : (i > k) - (i < k);
}

/**
 * lid_plan_rows_settle:
 * @kind: (inout): its rows are put in the order they are bought from; those beyond what the machine
 *   has slots for are dropped
 */
void
lid_plan_rows_settle (LidPlanKind *kind, const LidPlanQuestion *question)
{
  guint slots = question->board->n_slots, n = 0;

  g_array_sort_with_data (kind->goods, compare_goods, (gpointer)question->goods);
  for (guint i = 0; i < kind->goods->len; i++)
    {
      const LidGood *good = &question->goods[g_array_index (kind->goods, guint, i)];

      n += MIN (good->count, slots - n);
      if (n < slots)
        continue;
      kind->rows_limit = (guint64)good->price_minor;
      g_array_set_size (kind->goods, i + 1);
    }
  kind->rows_kept = kind->goods->len;
}

/**
 * lid_plan_rows_add:
 * @kind: (inout): of modules
 * @row: one that is no dearer than its limit
 */
void
lid_plan_rows_add (LidPlanKind *kind, const LidPlanQuestion *question, guint row)
{
  g_array_append_val (kind->goods, row);
  if (kind->goods->len >= kind->rows_kept + ROOM)
    lid_plan_rows_settle (kind, question);
}
