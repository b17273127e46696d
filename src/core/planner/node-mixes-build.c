/* SPDX-License-Identifier: GPL-3.0-or-later */
/* node-mixes-build.c: column after column, all that a node can hold.
 *
 * Of the first columns of a node each pair of a list (channels of each size) and a mix (modules of
 * each class) is kept once, with the least hands; from all columns the list tells T. */
#include "planner/node-mixes.h"

#include <string.h>

#define MOST_ENTRIES 60000u /* of one level */
#define SUMS_A_STEP 30u

typedef struct
{
  guint *places; /* index into the level + 1; 0: free */
  guint mask;
} Table;

static guint
place_of (const Table *table, guint64 list, guint64 mix)
{
  guint64 hash = (list * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15))
                 ^ (mix * G_GUINT64_CONSTANT (0xc2b2ae3d27d4eb4f));

  return (guint)(hash ^ hash >> 29) & table->mask;
}

static void
grow (Table *table, const GArray *level)
{
  table->mask = table->mask * 2 + 1;
  g_free (table->places);
  table->places = g_new0 (guint, (gsize)table->mask + 1);
  for (guint i = 0; i < level->len; i++)
    {
      const LidPlanMixEntry *entry = &g_array_index (level, LidPlanMixEntry, i);
      guint at = place_of (table, entry->list, entry->mix);

      while (table->places[at] != 0)
        at = (at + 1) & table->mask;
      table->places[at] = i + 1;
    }
}

static void
put (Table *table, GArray *level, const LidPlanMixEntry *entry)
{
  guint at = place_of (table, entry->list, entry->mix);

  for (; table->places[at] != 0; at = (at + 1) & table->mask)
    {
      LidPlanMixEntry *other = &g_array_index (level, LidPlanMixEntry, table->places[at] - 1);

      if (other->list != entry->list || other->mix != entry->mix)
        continue;
      if (entry->hands < other->hands)
        *other = *entry;
      return;
    }
  g_array_append_vals (level, entry, 1);
  table->places[at] = level->len;
  if (level->len * 2 > table->mask)
    grow (table, level);
}

/* Whether a mix is part of some that may be wanted. Eight bits a class, whose highest is never set
 * in as few modules as a machine has slots. */
static gboolean
is_part (const LidPlanNodeMixes *mixes, guint64 mix, guint *last)
{
  const guint64 high = G_GUINT64_CONSTANT (0x8080808080808080);
  guint n = mixes->totals->len;

  if (mixes->whole)
    return TRUE;
  for (guint i = 0; i < n; i++)
    {
      guint at = (*last + i) % n;

      if ((((g_array_index (mixes->totals, guint64, at) | high) - mix) & high) == high)
        {
          *last = at;
          return TRUE;
        }
    }
  return FALSE;
}

/* One column more; NULL: there are too many. */
static GArray *
add_column (LidPlanSearch *search,
            const LidPlanNodeMixes *mixes,
            const GArray *before,
            const GArray *types,
            guint least)
{
  guint last = 0;
  GArray *level = g_array_new (FALSE, FALSE, sizeof (LidPlanMixEntry));
  Table table = { g_new0 (guint, 1024), 1023 };

  lid_plan_search_goes_on (search, before->len * types->len / SUMS_A_STEP);
  for (guint i = 0; i < before->len && level->len <= MOST_ENTRIES && search->budget > 0; i++)
    for (guint t = 0; t < types->len; t++)
      {
        const LidPlanMixEntry *from = &g_array_index (before, LidPlanMixEntry, i);
        const LidPlanMixType *type = &g_array_index (types, LidPlanMixType, t);
        LidPlanMixEntry entry = { from->list + ((guint64)1 << (5 * type->size)),
                                  from->mix + type->mix,
                                  from->hands + type->hands,
                                  from->mib + type->mib,
                                  i,
                                  (guint16)t };

        if (entry.mib >= least && is_part (mixes, entry.mix, &last))
          put (&table, level, &entry);
      }
  g_free (table.places);
  if (level->len <= MOST_ENTRIES && search->budget > 0)
    return level;
  g_array_unref (level);
  return NULL;
}

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

/* What a column carries at the most, in steps. */
static guint
most_of_column (const LidPlanSearch *search)
{
  const LidPlanColumn *column = lid_plan_columns_at (search->columns, 0);

  return (guint)((search->pass.channel_mib - column->soldered) * column->n_channels
                 / search->bounds.unit_mib);
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

static void
list_mixes (const LidPlanSearch *search, const LidPlanNodeMixes *mixes, LidPlanMixNode *node)
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

/* Whether a node's columns can be filled just as those of the first node. */
static gboolean
is_like_first (const LidPlanSearch *search, const LidPlanNodeMixes *mixes, guint first)
{
  for (guint i = 0; i < search->times.per_node; i++)
    {
      const GArray *a = mixes->types[lid_plan_columns_at (search->columns, i)->group];
      const GArray *b = mixes->types[lid_plan_columns_at (search->columns, first + i)->group];

      if (a->len != b->len)
        return FALSE;
      for (guint t = 0; t < a->len; t++)
        {
          const LidPlanMixType *x = &g_array_index (a, LidPlanMixType, t);
          const LidPlanMixType *y = &g_array_index (b, LidPlanMixType, t);

          if (x->mix != y->mix || x->size != y->size || x->hands != y->hands)
            return FALSE;
        }
    }
  return TRUE;
}

static gboolean
build_node (LidPlanSearch *search, LidPlanNodeMixes *mixes, LidPlanMixNode *node)
{
  guint n = search->times.per_node;
  LidPlanMixEntry nothing = { 0 };

  node->levels = g_new0 (GArray *, n + 1);
  node->levels[0] = g_array_new (FALSE, FALSE, sizeof (LidPlanMixEntry));
  g_array_append_val (node->levels[0], nothing);
  for (guint i = 0; i < n; i++)
    {
      guint group = lid_plan_columns_at (search->columns, node->first + i)->group;
      guint later = (n - 1 - i) * most_of_column (search);

      node->levels[i + 1] = add_column (search, mixes, node->levels[i], mixes->types[group],
                                        mixes->least > later ? mixes->least - later : 0);
      if (node->levels[i + 1] == NULL)
        return FALSE;
    }
  list_mixes (search, mixes, node);
  return TRUE;
}

static int
compare_times (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return x < y ? -1 : x > y;
}

static void
list_times (LidPlanNodeMixes *mixes)
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

/**
 * lid_plan_node_mixes_build:
 * @search: in a pass
 * @mixes: (inout): with its types
 *
 * Returns: whether all was listed; where there is too much of it nothing can be said by it
 */
gboolean
lid_plan_node_mixes_build (LidPlanSearch *search, LidPlanNodeMixes *mixes)
{
  mixes->n_nodes = search->times.n_nodes;
  mixes->alike = FALSE;
  for (guint k = 0; k < mixes->n_nodes; k++)
    {
      LidPlanMixNode *node = &mixes->nodes[k];

      node->first = k * search->times.per_node;
      if (k > 0 && is_like_first (search, mixes, node->first))
        {
          mixes->alike = TRUE;
          node->mixes = g_array_ref (mixes->nodes[0].mixes);
          node->from
              = g_memdup2 (mixes->nodes[0].from, (search->bounds.n_mib + 2) * sizeof (guint));
        }
      else if (!build_node (search, mixes, node))
        return FALSE;
    }
  list_times (mixes);
  return TRUE;
}

/**
 * lid_plan_node_mixes_drop_nodes:
 * @mixes: (inout): forgets what the nodes can hold
 */
void
lid_plan_node_mixes_drop_nodes (const LidPlanSearch *search, LidPlanNodeMixes *mixes)
{
  for (guint k = 0; k < G_N_ELEMENTS (mixes->nodes); k++)
    {
      LidPlanMixNode *node = &mixes->nodes[k];

      for (guint i = 0; node->levels != NULL && i <= search->times.per_node; i++)
        g_clear_pointer (&node->levels[i], g_array_unref);
      g_clear_pointer (&node->levels, g_free);
      g_clear_pointer (&node->mixes, g_array_unref);
      g_clear_pointer (&node->from, g_free);
    }
  mixes->made = FALSE;
}
