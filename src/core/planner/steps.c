/* SPDX-License-Identifier: GPL-3.0-or-later */
/* steps.c: what a column can carry in a pass, and with how many hands.
 *
 * Fillings of a group that carry the same on each channel for as many hands are one step, with the
 * least of each bound. The search decides steps first and fillings later: many fillings are one. */
#include "planner/bounds.h"

#include <string.h>

/**
 * lid_plan_bounds_takes:
 *
 * Returns: whether a filling may be part of a population of the pass
 */
gboolean
lid_plan_bounds_takes (const LidPlanPass *pass, const LidPlanFilling *filling)
{
  return (pass->any_rate || filling->rate >= pass->rate)
         && (filling->n_modules == 0 || filling->rate > pass->above)
         && (pass->channel_mib == 0 || filling->channel_mib <= pass->channel_mib);
}

static int
compare_steps (gconstpointer a, gconstpointer b)
{
  const LidPlanStep *x = a, *y = b;

  if (x->channel_mib != y->channel_mib)
    return x->channel_mib < y->channel_mib ? -1 : 1;
  return (x->hands > y->hands) - (x->hands < y->hands);
}

static void
clear_step (gpointer data)
{
  g_array_unref (((LidPlanStep *)data)->members);
}

static guint
count_found (const LidPlanBounds *bounds,
             const LidPlanColumn *column,
             const LidPlanFilling *filling)
{
  guint n = 0;

  for (guint i = 0; i < column->n_slots; i++)
    n += filling->kinds[i] != LID_NOWHERE
         && lid_candidates_kind (bounds->candidates, (guint)filling->kinds[i])->found > 0;
  return n * column->n_channels;
}

static LidPlanStep *
find_step (GArray *steps, const LidPlanStep *like)
{
  LidPlanStep step = *like;

  for (guint i = 0; i < steps->len; i++)
    if (compare_steps (&g_array_index (steps, LidPlanStep, i), like) == 0)
      return &g_array_index (steps, LidPlanStep, i);
  memset (step.least_of, 0xff, sizeof step.least_of);
  step.members = g_array_new (FALSE, FALSE, sizeof (guint));
  g_array_append_val (steps, step);
  return &g_array_index (steps, LidPlanStep, steps->len - 1);
}

static int
compare_members (gconstpointer a, gconstpointer b, gpointer data)
{
  guint i = *(const guint *)a, k = *(const guint *)b;
  const LidPlanFilling *x = &g_array_index ((GArray *)data, LidPlanFilling, i);
  const LidPlanFilling *y = &g_array_index ((GArray *)data, LidPlanFilling, k);

  if (x->cost[0] != y->cost[0])
    return x->cost[0] < y->cost[0] ? -1 : 1;
  return (i > k) - (i < k);
}

static void
count_sizes (const LidPlanBounds *bounds, const LidPlanFilling *filling, LidPlanStep *step)
{
  for (guint s = 0; s < bounds->n_sizes; s++)
    {
      guint8 n = 0;

      for (guint i = 0; i < LID_PLAN_DEPTH; i++)
        n += filling->kinds[i] != LID_NOWHERE && bounds->size_of[filling->kinds[i]] == s;
      step->least_of[s] = MIN (step->least_of[s], n);
      step->most_of[s] = MAX (step->most_of[s], n);
    }
}

/**
 * lid_plan_steps_of:
 * @bounds: with its steps of capacity and hands
 * @column: any of a group
 *
 * Returns: (transfer full) (element-type LidPlanStep): rising by size, then by hands
 */
GArray *
lid_plan_steps_of (const LidPlanBounds *bounds,
                   const LidPlanPass *pass,
                   const LidPlanColumn *column)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (LidPlanStep));
  guint group = column->group;

  g_array_set_clear_func (steps, clear_step);
  for (guint f = 0; f < bounds->fillings->of_group[group]->len; f++)
    {
      const LidPlanFilling *filling = lid_plan_fillings_at (bounds->fillings, group, f);
      LidPlanStep like = { .channel_mib = filling->channel_mib,
                           .mib = lid_plan_bounds_mib (bounds, filling),
                           .hands = lid_plan_bounds_hands (bounds, filling),
                           .forced = G_MAXUINT,
                           .closes = G_MAXUINT32,
                           .cost = { filling->cost[0], filling->cost[1] } };
      LidPlanStep *step;
      guint found = count_found (bounds, column, filling);

      if (filling->twin != f || !lid_plan_bounds_takes (pass, filling))
        continue;
      step = find_step (steps, &like);
      step->cost[0] = MIN (step->cost[0], filling->cost[0]);
      step->cost[1] = MIN (step->cost[1], filling->cost[1]);
      step->found = MAX (step->found, found);
      step->forced = MIN (step->forced, found);
      count_sizes (bounds, filling, step);
      step->told = MAX (step->told, filling->rate);
      step->closes = MIN (step->closes, filling->closes);
      g_array_append_val (step->members, f);
    }
  g_array_sort (steps, compare_steps);
  for (guint i = 0; i < steps->len; i++)
    g_array_sort_with_data (g_array_index (steps, LidPlanStep, i).members, compare_members,
                            bounds->fillings->of_group[group]);
  return steps;
}
