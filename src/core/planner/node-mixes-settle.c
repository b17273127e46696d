/* SPDX-License-Identifier: GPL-3.0-or-later */
/* node-mixes-settle.c: whether the front covers everything of a capacity.
 *
 * A pair of mixes, one of each node, is covered by what it costs at the pass's prices, or else by
 * what it costs truly, or else it is tried. Mixes stand by capacity, hands and price, so that most
 * pairs are never looked at. */
#include "planner/node-mixes.h"

#include <string.h>

#define PAIRS_A_STEP 100u

static guint
time_index (const LidPlanNodeMixes *mixes, gint64 time)
{
  guint from = 0, to = mixes->times->len;

  while (from + 1 < to)
    {
      guint at = (from + to) / 2;

      if (g_array_index (mixes->times, gint64, at) <= time)
        from = at;
      else
        to = at;
    }
  return from;
}

/* What a mix of the whole machine costs; G_MAXINT64 where there are not so many modules, or it is
 * not what the wish allows. */
static gint64
cost_of (const LidPlanSearch *search, const LidPlanNodeMixes *mixes, guint64 mix)
{
  const LidWish *wish = search->judge->wish;
  guint n_modules = 0;
  gint64 cost = 0;

  for (guint c = 0; c < mixes->n_classes; c++)
    {
      guint n = lid_plan_node_mixes_count (mix, c);

      if (n >= mixes->cost[c]->len)
        return G_MAXINT64;
      n_modules += n * search->floor.unit;
      cost = MIN (cost + g_array_index (mixes->cost[c], gint64, n), LID_COST_UNKNOWN);
    }
  if (n_modules + wish->free_slots > search->columns->n_free
      || (wish->what == LID_WISH_SPEND && cost > wish->amount))
    return G_MAXINT64;
  return cost;
}

/* Whether all that is found is used where it has to be, and the hands on top of those of the
 * fillings: modules of kinds that are found, more than are found (fillings.c). */
static gboolean
count_surplus (const LidPlanSearch *search,
               const LidPlanNodeMixes *mixes,
               guint64 mix,
               guint *surplus)
{
  const LidCandidates *candidates = search->judge->candidates;

  *surplus = 0;
  for (guint i = 0; i < search->n_owned; i++)
    {
      guint kind = search->owned_kinds[i], class = mixes->class_of[kind];
      guint found = lid_candidates_kind (candidates, kind)->found, n = 0;

      if (found == 0)
        continue;
      if (class < LID_PLAN_CLASSES)
        n = lid_plan_node_mixes_count (mix, class) * search->floor.unit;
      if (search->judge->wish->hands == LID_HANDS_PULL)
        *surplus += n > found ? n - found : 0;
      else if (n < found)
        return FALSE;
    }
  return TRUE;
}

/* One pair; whether it is settled. */
static gboolean
settle_pair (LidPlanSearch *search, LidPlanNodeMixes *mixes, const LidPlanMix *const *parts)
{
  guint64 mix = parts[0]->mix + parts[1]->mix;
  guint hands = parts[0]->hands + parts[1]->hands + lid_plan_targets_apart (search), surplus;
  guint time = time_index (mixes, MAX (parts[0]->time, parts[1]->time));
  gint64 cost;

  if (!count_surplus (search, mixes, mix, &surplus)
      || parts[0]->price + parts[1]->price + mixes->constant
             >= lid_plan_node_mixes_bar (mixes, hands + surplus, time))
    return TRUE;
  cost = cost_of (search, mixes, mix);
  if (cost == G_MAXINT64 || cost >= lid_plan_node_mixes_bar (mixes, hands + surplus, time))
    return TRUE;
  if (mixes->failures < LID_PLAN_MIX_FAILURES && lid_plan_node_mixes_try (search, mixes, parts))
    {
      lid_plan_node_mixes_raise_bar (search, mixes);
      if (cost >= lid_plan_node_mixes_bar (mixes, hands + surplus, time))
        return TRUE;
    }
  mixes->failures++;
  return FALSE;
}

/* All pairs with one mix of the first node, of the capacity that is left; whether they are. */
static gboolean
settle_mix (LidPlanSearch *search, LidPlanNodeMixes *mixes, const LidPlanMix *first, guint mib)
{
  static const LidPlanMix nothing = { 0 };
  const LidPlanMixNode *other = &mixes->nodes[1];
  const LidPlanMix *parts[2] = { first, &nothing };
  guint apart = lid_plan_targets_apart (search), looks = 0, end;

  if (mixes->n_nodes == 1)
    return mib > 0 || settle_pair (search, mixes, parts);
  end = other->from[mib + 1];
  for (guint i = other->from[mib]; i < end && search->budget > 0; looks++)
    {
      guint time = time_index (mixes, first->time);

      parts[1] = &g_array_index (other->mixes, LidPlanMix, i);
      if (first->price + parts[1]->price + mixes->constant
          < lid_plan_node_mixes_bar (mixes, first->hands + parts[1]->hands + apart, time))
        {
          if (!settle_pair (search, mixes, parts))
            return FALSE;
          i++;
          continue;
        }
      i = parts[1]->next;
    }
  lid_plan_search_goes_on (search, looks / PAIRS_A_STEP);
  return search->budget > 0;
}

/**
 * lid_plan_node_mixes_is_settled:
 * @search: in a pass, at a target
 *
 * Returns: whether it is known of the target's capacity already
 */
gboolean
lid_plan_node_mixes_is_settled (const LidPlanSearch *search)
{
  return search->seek == NULL
         && search->node_mixes->verdicts[search->target_mib] == LID_PLAN_MIX_SETTLED;
}

static gboolean
settle (LidPlanSearch *search, LidPlanNodeMixes *mixes)
{
  const LidPlanMixNode *node = &mixes->nodes[0];
  guint mib = search->target_mib, end = node->from[(mixes->alike ? mib / 2 : mib) + 1];

  lid_plan_node_mixes_raise_bar (search, mixes);
  for (guint i = 0; i < end; i++)
    {
      const LidPlanMix *mix = &g_array_index (node->mixes, LidPlanMix, i);

      if (!settle_mix (search, mixes, mix, mib - mix->mib))
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_plan_node_mixes_settle:
 * @search: in a pass, at a target
 *
 * Returns: whether everything of the target's capacity in the pass is covered by the front now,
 *   whatever its hands
 */
gboolean
lid_plan_node_mixes_settle (LidPlanSearch *search)
{
  LidPlanNodeMixes *mixes = search->node_mixes;
  guint mib = search->target_mib;

  if (search->seek != NULL || mixes->failures >= LID_PLAN_MIX_FAILURES
      || (mixes->verdicts[mib] == LID_PLAN_MIX_NOT_ASKED
          && !lid_plan_node_mixes_would_help (search)))
    return FALSE;
  if (mixes->verdicts[mib] == LID_PLAN_MIX_NOT_ASKED)
    mixes->verdicts[mib] = lid_plan_node_mixes_make (search) && settle (search, mixes)
                               ? LID_PLAN_MIX_SETTLED
                               : LID_PLAN_MIX_OPEN;
  return mixes->verdicts[mib] == LID_PLAN_MIX_SETTLED;
}

void
lid_plan_node_mixes_init (LidPlanSearch *search)
{
  LidPlanNodeMixes *mixes = g_new0 (LidPlanNodeMixes, 1);

  search->node_mixes = mixes;
  mixes->class_of = g_new0 (guint8, search->judge->candidates->kinds->len + 1);
  mixes->types = g_new0 (GArray *, search->fillings->n_groups + 1);
  mixes->verdicts = g_new0 (guint8, search->bounds.n_mib + 1);
  mixes->totals = g_array_new (FALSE, FALSE, sizeof (LidPlanMixTotal));
  mixes->times = g_array_new (FALSE, FALSE, sizeof (gint64));
  mixes->bar = g_array_new (FALSE, FALSE, sizeof (gint64));
  for (guint c = 0; c < LID_PLAN_CLASSES; c++)
    {
      mixes->order[c] = g_array_new (FALSE, FALSE, sizeof (guint));
      mixes->cost[c] = g_array_new (FALSE, FALSE, sizeof (gint64));
    }
}

/**
 * lid_plan_node_mixes_renew:
 * @search: at the beginning of a pass
 */
void
lid_plan_node_mixes_renew (LidPlanSearch *search)
{
  LidPlanNodeMixes *mixes = search->node_mixes;

  lid_plan_node_mixes_drop_nodes (search, mixes);
  for (guint g = 0; g < search->fillings->n_groups; g++)
    g_clear_pointer (&mixes->types[g], g_array_unref);
  memset (mixes->verdicts, 0, search->bounds.n_mib);
  mixes->tried = mixes->ready = FALSE;
  mixes->failures = 0;
  mixes->steps = mixes->dear = 0;
}

void
lid_plan_node_mixes_clear (LidPlanSearch *search)
{
  LidPlanNodeMixes *mixes = search->node_mixes;

  lid_plan_node_mixes_renew (search);
  g_free (mixes->class_of);
  g_free (mixes->types);
  g_free (mixes->verdicts);
  g_array_unref (mixes->totals);
  g_array_unref (mixes->times);
  g_array_unref (mixes->bar);
  for (guint c = 0; c < LID_PLAN_CLASSES; c++)
    {
      g_array_unref (mixes->order[c]);
      g_array_unref (mixes->cost[c]);
    }
  g_clear_pointer (&search->node_mixes, g_free);
}
