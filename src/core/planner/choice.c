/* SPDX-License-Identifier: GPL-3.0-or-later */
/* choice.c: which modules make up what each column carries.
 *
 * What each column carries, and with it the bound of the bandwidth, is decided
 * (descent.c). Column by column one filling of its step is taken; supply, what
 * must stay, the exact cost so far and the sets that lasting rules stop prune.
 * Columns of a group with the same step are filled in rising order of the
 * fillings. */
#include "planner/search.h"

/* Puts the modules of a filling in, or takes them out again; whether supply
 * allows it. */
static gboolean
apply (LidPlanSearch *search, const LidPlanColumn *column, const LidPlanFilling *filling, int sign)
{
  gboolean within = TRUE;

  for (guint i = 0; i < column->n_slots; i++)
    {
      const LidPlanKind *kind;
      guint *used, n = column->n_channels;

      if (filling->kinds[i] == LID_NOWHERE)
        continue;
      kind = lid_candidates_kind (search->judge->candidates, (guint)filling->kinds[i]);
      used = &search->used[filling->kinds[i]];
      for (guint k = 0; k < n; k++)
        {
          if (sign < 0)
            (*used)--;
          if (*used < kind->found)
            search->missing -= (guint)sign;
          if (*used < kind->supply)
            search->cost
                += sign
                   * (lid_candidates_cost (kind, *used + 1) - lid_candidates_cost (kind, *used));
          if (sign > 0)
            (*used)++;
        }
      search->lean_excess
          += sign
             * (lid_plan_lean_excess (search, (guint)filling->kinds[i], *used + (sign < 0 ? n : 0))
                - lid_plan_lean_excess (search, (guint)filling->kinds[i],
                                        *used - (sign < 0 ? 0 : n)));
      within = within && *used <= kind->supply;
    }
  search->n_used += (guint)sign * filling->n_modules;
  return within;
}

/* Free slots of the columns from @column on. */
static guint
slots_from (const LidPlanSearch *search, guint column)
{
  guint n = 0;

  for (guint i = column; i < search->columns->columns->len; i++)
    {
      const LidPlanColumn *here = lid_plan_columns_at (search->columns, i);

      n += here->n_channels * here->n_slots;
    }
  return n;
}

/* @shares: what is decided, by the prices of bounds.c and of lean.c. */
static gboolean
may_go_on (LidPlanSearch *search, guint next, const gint64 *shares)
{
  const LidWish *wish = search->judge->wish;
  gboolean two = search->bounds.n_tables > 1;
  gint64 cost = MIN (search->cost, LID_COST_UNKNOWN) + search->rest[two][next];
  gint64 shortage = lid_plan_lean_short (search, next);
  LidPlanVector best = search->best;

  if (search->n_used + wish->free_slots > search->columns->n_free
      || shortage >= LID_PLAN_OUT_OF_REACH)
    return FALSE;
  if (wish->hands != LID_HANDS_PULL && search->missing > 0
      && search->missing > slots_from (search, next))
    return FALSE;
  if (two)
    cost = MAX (cost, shares[0] + search->rest[0][next] - search->bounds.owned);
  if (search->lean)
    cost = MAX (cost, shares[1] + search->rest[2][next] + search->lean_sum + search->lean_excess
                          + shortage);
  best.cost = MAX (MIN (cost, LID_COST_UNKNOWN), best.cost);
  if (best.cost > search->most_cost || (wish->what == LID_WISH_SPEND && best.cost > wish->amount))
    return FALSE;
  if (wish->hands == LID_HANDS_PULL)
    best.hands += lid_plan_lean_surplus (search, next);
  return !lid_plan_descent_is_settled (search, &best);
}

static void
choose_from (LidPlanSearch *search, guint column, const gint64 *shares)
{
  const LidPlanColumn *here;
  const LidPlanStep *step;
  guint first = 0;

  if (column == search->columns->columns->len)
    {
      lid_plan_leaf_try (search);
      return;
    }
  here = lid_plan_columns_at (search->columns, column);
  step = &g_array_index (search->bounds.steps[here->group], LidPlanStep, search->picked[column]);
  if (column > 0 && lid_plan_columns_at (search->columns, column - 1)->group == here->group
      && search->picked[column - 1] == search->picked[column])
    first = search->member[column - 1];
  for (guint i = first; i < step->members->len && search->budget > 0; i++)
    {
      guint f = g_array_index (step->members, guint, i);
      const LidPlanFilling *filling = lid_plan_fillings_at (search->fillings, here->group, f);

      gint64 next[2] = { shares[0] + filling->cost[0], shares[1] + filling->cost[2] };

      search->member[column] = i;
      search->chosen[column] = f;
      if (apply (search, here, filling, 1) && lid_plan_search_goes_on (search, 1)
          && may_go_on (search, column + 1, next) && !lid_plan_leaf_is_stopped (search, column))
        choose_from (search, column + 1, next);
      apply (search, here, filling, -1);
    }
}

/**
 * lid_plan_choice_run:
 * @search: every column has its step; the bounds are those of what they carry
 */
void
lid_plan_choice_run (LidPlanSearch *search)
{
  choose_from (search, 0, (const gint64[]){ 0, 0 });
}
