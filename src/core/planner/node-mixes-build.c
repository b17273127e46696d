/* SPDX-License-Identifier: GPL-3.0-or-later */
/* node-mixes-build.c: column after column, all that a node can hold.
 *
 * Of the first columns of a node each pair of a list (channels of each size) and a mix (modules of
 * each class) is kept once, with the least hands. */
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

/* What is there beside the columns that are filled. */
typedef struct
{
  guint least; /* steps of capacity: less in those is of no use */
  guint units; /* modules there is room for, in units */
  guint found; /* modules found there */
  guint last;  /* the total that an entry was part of last */
} Rest;

/* Hands that what is found beside the columns costs at the least, if it holds so many modules of
 * found kinds: those that leave, or those that come from elsewhere. */
static guint
waste_of_rest (const LidPlanSearch *search, const Rest *rest, guint n)
{
  n *= search->floor.unit;
  if (search->judge->wish->hands == LID_HANDS_PULL)
    return rest->found > n ? rest->found - n : 0;
  return n > rest->found ? n - rest->found : 0;
}

/* Whether an entry is part of some mix that may be wanted, the rest finds room beside it, and hands
 * allow it. Of eight bits a class the highest is never set in as few modules as a machine has. */
static gboolean
is_part (const LidPlanSearch *search,
         const LidPlanNodeMixes *mixes,
         const LidPlanMixEntry *entry,
         Rest *rest)
{
  const guint64 high = G_GUINT64_CONSTANT (0x8080808080808080);
  guint n = mixes->totals->len;
  guint strange = lid_plan_node_mixes_size (entry->mix & mixes->strange) * search->floor.unit;

  if (mixes->whole)
    return TRUE;
  for (guint i = 0; i < n; i++)
    {
      guint at = (rest->last + i) % n;
      const LidPlanMixTotal *total = &g_array_index (mixes->totals, LidPlanMixTotal, at);
      guint64 left = total->mix - entry->mix;

      if ((((total->mix | high) - entry->mix) & high) != high
          || lid_plan_node_mixes_size (left) > rest->units
          || entry->hands - strange
                     + waste_of_rest (search, rest,
                                      lid_plan_node_mixes_size (left & ~mixes->strange))
                 > total->waste)
        continue;
      rest->last = at;
      return TRUE;
    }
  return FALSE;
}

/* One column more; NULL: there are too many. */
static GArray *
add_column (LidPlanSearch *search,
            const LidPlanNodeMixes *mixes,
            const GArray *before,
            const GArray *types,
            Rest *rest)
{
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

        if (entry.mib >= rest->least && is_part (search, mixes, &entry, rest))
          put (&table, level, &entry);
      }
  g_free (table.places);
  if (level->len <= MOST_ENTRIES && search->budget > 0)
    return level;
  g_array_unref (level);
  return NULL;
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

/* What a column carries at the most, in steps. */
static guint
most_of_column (const LidPlanSearch *search)
{
  const LidPlanColumn *column = lid_plan_columns_at (search->columns, 0);

  return (guint)((search->pass.channel_mib - column->soldered) * column->n_channels
                 / search->bounds.unit_mib);
}

/* All columns but those of a node up to one. */
static Rest
rest_after (const LidPlanSearch *search, const LidPlanNodeMixes *mixes, guint first, guint column)
{
  const LidCandidates *candidates = search->judge->candidates;
  guint later = (first + search->times.per_node - 1 - column) * most_of_column (search);
  Rest rest = { .least = mixes->least > later ? mixes->least - later : 0 };

  for (guint i = 0; i < search->columns->columns->len; i++)
    {
      const LidPlanColumn *here = lid_plan_columns_at (search->columns, i);

      if (i >= first && i <= column)
        continue;
      rest.units += here->n_slots;
      for (guint k = 0; k < here->n_slots * here->n_channels; k++)
        rest.found += candidates->found_kind[here->slots[k]] != LID_NOWHERE;
    }
  return rest;
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
      Rest rest = rest_after (search, mixes, node->first, node->first + i);

      node->levels[i + 1] = add_column (search, mixes, node->levels[i], mixes->types[group], &rest);
      if (node->levels[i + 1] == NULL)
        return FALSE;
    }
  lid_plan_node_mixes_list (search, mixes, node);
  return TRUE;
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
  lid_plan_node_mixes_list_times (mixes);
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
