/* SPDX-License-Identifier: GPL-3.0-or-later */
/* node-mixes-list.c: from lists of channels to mixes of modules with hands and T, in the order in
 * which node-mixes-settle.c looks at them. */
#include "planner/node-mixes.h"

static gint64
time_of_list (const LidPlanSearch *search, guint64 list)
{
  gint64 channels[LID_PLAN_MOST_CHANNELS];
  guint n = 0;

  for (guint s = 0; s < LID_PLAN_MIXED_SIZES; s++)
    for (guint k = list >> (5 * s) & 31; k > 0; k--)
      channels[n++] = g_array_index (search->times.sizes, gint64, s);
  return lid_plan_times_read (&search->times, channels, n);
}

static int
compare_mixes (gconstpointer a, gconstpointer b)
{
  const LidPlanMix *x = a, *y = b;

  if (x->mix != y->mix)
    return x->mix < y->mix ? -1 : 1;
  if (x->hands != y->hands)
    return x->hands < y->hands ? -1 : 1;
  return (x->time > y->time) - (x->time < y->time);
}

static int
compare_for_use (gconstpointer a, gconstpointer b)
{
  const LidPlanMix *x = a, *y = b;

  if (x->mib != y->mib)
    return x->mib < y->mib ? -1 : 1;
  if (x->hands != y->hands)
    return x->hands < y->hands ? -1 : 1;
  if (x->price != y->price)
    return x->price < y->price ? -1 : 1;
  return compare_mixes (a, b);
}

/* Of one mix those that have fewer hands or a lower T than every other. */
static void
keep_best (GArray *all)
{
  guint n = 0;

  for (guint i = 0; i < all->len; i++)
    {
      const LidPlanMix *mix = &g_array_index (all, LidPlanMix, i);
      const LidPlanMix *kept = n > 0 ? &g_array_index (all, LidPlanMix, n - 1) : NULL;

      if (kept == NULL || kept->mix != mix->mix || mix->time < kept->time)
        g_array_index (all, LidPlanMix, n++) = *mix;
    }
  g_array_set_size (all, n);
}

static void
index_by_size (const LidPlanSearch *search, LidPlanMixNode *node)
{
  guint n_mib = search->bounds.n_mib, at = 0;

  for (guint i = node->mixes->len; i-- > 0;)
    {
      LidPlanMix *mix = &g_array_index (node->mixes, LidPlanMix, i);
      const LidPlanMix *after = mix + 1;

      mix->next = i + 1;
      if (i + 1 < node->mixes->len && after->mib == mix->mib && after->hands == mix->hands)
        mix->next = after->next;
    }
  node->from = g_new (guint, n_mib + 2);
  for (guint mib = 0; mib <= n_mib + 1; mib++)
    {
      while (at < node->mixes->len && g_array_index (node->mixes, LidPlanMix, at).mib < mib)
        at++;
      node->from[mib] = at;
    }
}

/**
 * lid_plan_node_mixes_list:
 * @search: in a pass
 * @node: (inout): with its levels
 *
 * Lists the mixes of the last level, each with its T.
 */
void
lid_plan_node_mixes_list (const LidPlanSearch *search,
                          const LidPlanNodeMixes *mixes,
                          LidPlanMixNode *node)
{
  const GArray *last = node->levels[search->times.per_node];

  node->mixes = g_array_sized_new (FALSE, FALSE, sizeof (LidPlanMix), last->len);
  for (guint i = 0; i < last->len; i++)
    {
      const LidPlanMixEntry *entry = &g_array_index (last, LidPlanMixEntry, i);
      LidPlanMix mix = { .mix = entry->mix,
                         .time = time_of_list (search, entry->list),
                         .mib = entry->mib,
                         .hands = entry->hands,
                         .entry = i };

      for (guint c = 0; c < mixes->n_classes; c++)
        mix.price += mixes->price[c] * (gint64)lid_plan_node_mixes_count (mix.mix, c);
      g_array_append_val (node->mixes, mix);
    }
  g_array_sort (node->mixes, compare_mixes);
  keep_best (node->mixes);
  g_array_sort (node->mixes, compare_for_use);
  index_by_size (search, node);
}

static int
compare_times (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return x < y ? -1 : x > y;
}

/**
 * lid_plan_node_mixes_list_times:
 * @mixes: (inout): gets every T of its nodes, rising
 */
void
lid_plan_node_mixes_list_times (LidPlanNodeMixes *mixes)
{
  guint n = 0;

  g_array_set_size (mixes->times, 0);
  for (guint k = 0; k < mixes->n_nodes; k++)
    for (guint i = 0; i < mixes->nodes[k].mixes->len; i++)
      g_array_append_val (mixes->times, g_array_index (mixes->nodes[k].mixes, LidPlanMix, i).time);
  g_array_sort (mixes->times, compare_times);
  for (guint i = 0; i < mixes->times->len; i++)
    if (n == 0
        || g_array_index (mixes->times, gint64, i) != g_array_index (mixes->times, gint64, n - 1))
      g_array_index (mixes->times, gint64, n++) = g_array_index (mixes->times, gint64, i);
  g_array_set_size (mixes->times, n);
}
