/* SPDX-License-Identifier: GPL-3.0-or-later */
/* picks.c: which six of the front are shown first, and why one would choose
 * each (product.md 8). */
#include "planner/option.h"

#include <glib/gi18n-lib.h>

#define MOST_OPTIONS 6u

typedef int (*Compare) (const LidPlanOption *a, const LidPlanOption *b);

/* Each of these is negative where @a is the better one. */
static int
compare_cost (const LidPlanOption *a, const LidPlanOption *b)
{
  guint64 x = (guint64)a->cost_minor, y = (guint64)b->cost_minor; /* not known: largest */

  return (x > y) - (x < y);
}

static int
compare_hands (const LidPlanOption *a, const LidPlanOption *b)
{
  return (a->hands > b->hands) - (a->hands < b->hands);
}

static int
compare_speed (const LidPlanOption *a, const LidPlanOption *b)
{
  if (a->rated != b->rated)
    return a->rated ? -1 : 1;
  return lid_ratio_compare (b->speed, a->speed);
}

static int
compare_room (const LidPlanOption *a, const LidPlanOption *b)
{
  return (b->empty_slots > a->empty_slots) - (b->empty_slots < a->empty_slots);
}

static int
compare_unsure (const LidPlanOption *a, const LidPlanOption *b)
{
  return (a->unsure > b->unsure) - (a->unsure < b->unsure);
}

static int
compare_most (const LidPlanOption *a, const LidPlanOption *b)
{
  return (b->usable_mib > a->usable_mib) - (b->usable_mib < a->usable_mib);
}

/* The best by one respect, then by cost, hands and speed; the first of several.
 */
static LidPlanOption *
best_by (const GPtrArray *front, Compare by)
{
  const Compare order[] = { by, compare_cost, compare_hands, compare_speed };
  LidPlanOption *best = front->pdata[0];

  for (guint i = 1; i < front->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (order); k++)
      {
        int way = order[k](front->pdata[i], best);

        if (way < 0)
          best = front->pdata[i];
        if (way != 0)
          break;
      }
  return best;
}

typedef struct
{
  guint picks; /* all of them */
  const char *why;
} Reason;

static const Reason reasons[] = {
  { LID_PICK_CHEAPEST | LID_PICK_FASTEST | LID_PICK_FEWEST_HANDS,
    N_ ("Nothing that reaches the wish is cheaper, faster or less work.") },
  { LID_PICK_CHEAPEST | LID_PICK_FASTEST,
    N_ ("Nothing that reaches the wish is cheaper, and nothing is faster.") },
  { LID_PICK_CHEAPEST | LID_PICK_FEWEST_HANDS,
    N_ ("Nothing that reaches the wish is cheaper, and nothing is less work.") },
  { LID_PICK_FASTEST | LID_PICK_FEWEST_HANDS,
    N_ ("Nothing that reaches the wish is faster, and nothing is less work.") },
  { LID_PICK_MOST | LID_PICK_FASTEST,
    N_ ("Nothing for that sum has more capacity, and nothing is faster.") },
  { LID_PICK_MOST, N_ ("The most capacity for the sum.") },
  { LID_PICK_CHEAPEST, N_ ("The cheapest that reaches the wish.") },
  { LID_PICK_FASTEST, N_ ("The fastest: all of the memory is read once in the least time.") },
  { LID_PICK_FEWEST_HANDS, N_ ("The least work: the fewest modules are pulled, fitted or moved.") },
  { LID_PICK_MORE, N_ ("The cheapest with more capacity than the cheapest of all.") },
  { LID_PICK_MOST_ROOM, N_ ("It leaves the most slots empty for later.") },
  { LID_PICK_LEAST_UNSURE, N_ ("It rests on the fewest facts that nobody told.") },
};

static const char *
why (const LidPlan *plan, const LidWish *wish, const LidPlanOption *option)
{
  gboolean judged = plan->reason == NULL && plan->proved && wish->what != LID_WISH_CHEAPEST;

  if ((option->picks & LID_PICK_AS_FOUND) != 0)
    return judged && plan->front->len == 1 ? _ (
               "As found: with what is at hand nothing beats it in capacity, bandwidth and work. "
               "What the checker says of it still stands.")
                                           : _ ("As found: nothing is done.");
  for (guint i = 0; i < G_N_ELEMENTS (reasons); i++)
    if ((option->picks & reasons[i].picks) == reasons[i].picks)
      return _ (reasons[i].why);
  return _ ("Nothing beats it in money, work and speed together.");
}

static void
show (LidPlan *plan, LidPlanOption *option, LidPick pick)
{
  option->picks |= pick;
  if (plan->options->len < MOST_OPTIONS && !g_ptr_array_find (plan->options, option, NULL))
    g_ptr_array_add (plan->options, option);
}

/* The cheapest of the front above the cheapest one's usable capacity; the front is sorted by cost.
 */
static void
show_more (LidPlan *plan)
{
  const LidPlanOption *cheapest = best_by (plan->front, compare_cost);

  for (guint i = 0; i < plan->front->len; i++)
    {
      LidPlanOption *option = plan->front->pdata[i];

      if (option->usable_mib <= cheapest->usable_mib)
        continue;
      show (plan, option, LID_PICK_MORE);
      return;
    }
}

static void
show_others (LidPlan *plan, const LidWish *wish)
{
  show (plan, best_by (plan->front, compare_speed), LID_PICK_FASTEST);
  show (plan, best_by (plan->front, compare_hands), LID_PICK_FEWEST_HANDS);
  if (plan->more->len > 0)
    show (plan, plan->more->pdata[0], LID_PICK_MORE);
  else if (wish->what == LID_WISH_SPEND)
    show_more (plan);
  show (plan, best_by (plan->front, compare_room), LID_PICK_MOST_ROOM);
  show (plan, best_by (plan->front, compare_unsure), LID_PICK_LEAST_UNSURE);
}

static void
say_why (const GPtrArray *options, const LidPlan *plan, const LidWish *wish)
{
  for (guint i = 0; i < options->len; i++)
    {
      LidPlanOption *option = options->pdata[i];

      option->why = g_strdup (why (plan, wish, option));
    }
}

/**
 * lid_plan_picks_choose:
 * @plan: (inout): its front stands, the cheapest first; options and their
 * sentences are set
 * @wish: where nothing is bought, nothing is the cheapest
 */
void
lid_plan_picks_choose (LidPlan *plan, const LidWish *wish)
{
  gboolean money = wish->what != LID_WISH_REARRANGE;

  if (plan->front->len == 0)
    return;
  if (wish->what == LID_WISH_SPEND)
    show (plan, best_by (plan->front, compare_most), LID_PICK_MOST);
  if (money)
    show (plan, best_by (plan->front, compare_cost), LID_PICK_CHEAPEST);
  if (wish->what != LID_WISH_CHEAPEST) /* nothing else was asked about */
    show_others (plan, wish);
  say_why (plan->front, plan, wish);
  say_why (plan->more, plan, wish);
}
