/* SPDX-License-Identifier: GPL-3.0-or-later */
/* node-mixes-try.c: a mix of each node becomes a population, and the checker is asked. */
#include "planner/node-mixes.h"

#define MOST_TRIES 2000u /* of fillings, for one population */

typedef struct
{
  LidPlanSearch *search;
  const LidPlanNodeMixes *mixes;
  const LidPlanMixType **types; /* per column */
  guint *left;                  /* per kind: to be used yet, in units */
  guint tries;
} Deal;

/* What the columns of a node hold, from the last back to the first. */
static void
read_types (Deal *deal, guint node, const LidPlanMix *mix)
{
  const LidPlanNodeMixes *mixes = deal->mixes;
  const LidPlanMixNode *from
      = mixes->nodes[node].levels != NULL ? &mixes->nodes[node] : &mixes->nodes[0];
  guint at = mix->entry;

  for (guint i = deal->search->times.per_node; i-- > 0;)
    {
      const LidPlanMixEntry *entry = &g_array_index (from->levels[i + 1], LidPlanMixEntry, at);
      guint column = mixes->nodes[node].first + i;
      guint group = lid_plan_columns_at (deal->search->columns, column)->group;

      deal->types[column] = &g_array_index (mixes->types[group], LidPlanMixType, entry->type);
      at = entry->before;
    }
}

/* How many of each kind: of each class the cheapest. */
static void
count_kinds (Deal *deal, guint64 mix)
{
  for (guint c = 0; c < deal->mixes->n_classes; c++)
    for (guint i = 0; i < lid_plan_node_mixes_count (mix, c); i++)
      deal->left[g_array_index (deal->mixes->order[c], guint, i)]++;
}

/* Takes what a filling holds from what is left; whether there was as much. */
static gboolean
take (Deal *deal, const LidPlanFilling *filling)
{
  gboolean enough = TRUE;

  for (guint k = 0; k < LID_PLAN_DEPTH; k++)
    if (filling->kinds[k] != LID_NOWHERE)
      enough = deal->left[filling->kinds[k]]-- > 0 && enough;
  return enough;
}

static void
give_back (Deal *deal, const LidPlanFilling *filling)
{
  for (guint k = 0; k < LID_PLAN_DEPTH; k++)
    if (filling->kinds[k] != LID_NOWHERE)
      deal->left[filling->kinds[k]]++;
}

/* A filling of each column from @column on, so that together they hold just what is left. */
static gboolean
deal_out (Deal *deal, guint column)
{
  guint group;

  if (column == deal->search->columns->columns->len)
    return TRUE;
  group = lid_plan_columns_at (deal->search->columns, column)->group;
  for (guint i = 0; i < deal->types[column]->fillings->len && deal->tries > 0; i++)
    {
      guint f = g_array_index (deal->types[column]->fillings, guint, i);
      const LidPlanFilling *filling = lid_plan_fillings_at (deal->search->fillings, group, f);
      gboolean done;

      deal->tries--;
      deal->search->chosen[column] = f;
      done = take (deal, filling) && deal_out (deal, column + 1);
      give_back (deal, filling);
      if (done)
        return TRUE;
    }
  return FALSE;
}

/**
 * lid_plan_node_mixes_try:
 * @search: in a pass
 * @parts: a mix of each node
 *
 * Puts them into slots, each class the cheapest modules there are, and asks the checker; what it
 * takes comes to the front.
 *
 * Returns: whether it was asked
 */
gboolean
lid_plan_node_mixes_try (LidPlanSearch *search,
                         LidPlanNodeMixes *mixes,
                         const LidPlanMix *const *parts)
{
  guint n_kinds = search->judge->candidates->kinds->len;
  g_autofree const LidPlanMixType **types
      = g_new0 (const LidPlanMixType *, search->columns->columns->len + 1);
  g_autofree guint *left = g_new0 (guint, n_kinds + 1);
  Deal deal = { search, mixes, types, left, MOST_TRIES };
  guint64 mix = 0;
  gboolean dealt;

  for (guint k = 0; k < mixes->n_nodes; k++)
    {
      read_types (&deal, k, parts[k]);
      mix += parts[k]->mix;
    }
  count_kinds (&deal, mix);
  dealt = deal_out (&deal, 0);
  lid_plan_search_goes_on (search, (MOST_TRIES - deal.tries) / 8);
  if (dealt)
    lid_plan_leaf_ask (search);
  return dealt;
}
