/* SPDX-License-Identifier: GPL-3.0-or-later */
/* twins.c: fillings that differ in the order of their modules alone.
 *
 * No figure looks at which slot of a channel holds which module, and where the hands are as many
 * too, one such filling stands for all of them: the one that loses least. Rules do look at the
 * order, so where a finding speaks against the one that stands, leaf.c asks about the others. */
#include "planner/fillings.h"

static gboolean
same_modules (const LidPlanFilling *a, const LidPlanFilling *b)
{
  for (guint i = 0; i < LID_PLAN_DEPTH; i++)
    {
      guint in_a = 0, in_b = 0;

      for (guint k = 0; k < LID_PLAN_DEPTH; k++)
        {
          in_a += a->kinds[k] == a->kinds[i];
          in_b += b->kinds[k] == a->kinds[i];
        }
      if (in_a != in_b)
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_plan_twins_find:
 * @fillings: (element-type LidPlanFilling) (inout): of one group; each gets its twin
 */
void
lid_plan_twins_find (GArray *fillings)
{
  for (guint i = 0; i < fillings->len; i++)
    {
      LidPlanFilling *filling = &g_array_index (fillings, LidPlanFilling, i);
      guint best = i;

      for (guint k = 0; k < fillings->len; k++)
        {
          const LidPlanFilling *other = &g_array_index (fillings, LidPlanFilling, k);
          const LidPlanFilling *standing = &g_array_index (fillings, LidPlanFilling, best);

          if (other->mib == filling->mib && other->hands == filling->hands
              && (other->loses < standing->loses || (other->loses == standing->loses && k < best))
              && same_modules (filling, other))
            best = k;
        }
      filling->twin = best;
    }
}
