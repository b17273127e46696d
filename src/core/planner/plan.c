/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan.c: a wish in, options out. The work is done in search.c, and said there.
 */
#include "base/error.h"
#include "planner/cheapest.h"
#include "planner/option.h"
#include "planner/search.h"

#include <glib/gi18n-lib.h>

#define MORE_BUDGET 300000u

typedef struct
{
  const LidPlanQuestion *question;
  LidWish wish;
  const LidPlanWatch *watch;
  LidCandidates *candidates;
  LidPlanJudge judge;
  LidPlan *plan;
  guint64 spent; /* steps of a search that only led to this one */
} Work;

static void
tell_option (LidPlanSearch *search, const LidPlanEntry *entry)
{
  LidPlanOption *option = lid_plan_option_new (search->judge, entry);

  search->watch->option (option, search->watch->data);
  lid_plan_option_free (option);
}

static guint
n_fitted (const Work *work)
{
  guint n = 0;

  for (guint s = 0; s < work->judge.settings->n_sockets; s++)
    n += work->judge.settings->processors[s].fitted;
  return n;
}

/* Whether the fitted sockets hold the same, slot by slot. */
static gboolean
is_alike (const LidPlanColumns *columns, const int *kinds)
{
  for (guint i = 0; i < columns->columns->len; i++)
    {
      const LidPlanColumn *column = lid_plan_columns_at (columns, i);

      for (guint k = 0; k < column->n_channels * column->n_slots; k++)
        if (kinds[column->slots[k]] != kinds[column->slots[k % column->n_slots]])
          return FALSE;
    }
  return TRUE;
}

static void
search (Work *work, gboolean alike, gboolean quiet, LidPlanFront *front)
{
  g_autoptr (LidPlanColumns) columns
      = lid_plan_columns_new (work->question, work->candidates, alike);
  g_autoptr (LidPlanEntry) found = lid_plan_judge_as_found (&work->judge);
  g_autoptr (LidPlanFillings) fillings = NULL;
  LidPlanSearch searching;

  if (found != NULL && (!alike || is_alike (columns, found->kinds)))
    lid_plan_front_add (front, found);
  fillings = lid_plan_fillings_new (&work->judge, columns);
  lid_plan_search_init (&searching, &work->judge, columns, fillings, front, work->watch);
  searching.quiet = quiet || work->wish.any;
  searching.budget -= MIN (searching.budget / 2, work->spent);
  if (work->watch != NULL && work->watch->option != NULL)
    searching.found = tell_option;
  lid_plan_search_run (&searching);
  work->plan->steps += searching.steps;
  work->plan->ties_open = work->plan->ties_open || searching.ties_open;
  if (searching.gave_up)
    work->plan->proved = FALSE;
  lid_plan_search_clear (&searching);
}

/* The quick way to the cheapest; whether it is proved that nothing costs less. */
static gboolean
settle (Work *work, gboolean alike, LidPlanFront *front)
{
  g_autoptr (LidPlanColumns) columns
      = lid_plan_columns_new (work->question, work->candidates, alike);
  g_autoptr (LidPlanEntry) found = lid_plan_judge_as_found (&work->judge);

  if (found != NULL && (!alike || is_alike (columns, found->kinds)))
    lid_plan_front_add (front, found);
  return lid_plan_cheapest_find (&work->judge, columns, front);
}

/* Of those that cost no more than @front's first: the one for fewest hands, then the fastest. What
 * costs least need not be well placed. */
static void
place_well (Work *work, gboolean alike, LidPlanFront *front)
{
  const LidWish wish = work->wish;
  g_autoptr (LidPlanEntry) first
      = lid_plan_entry_copy (front->entries->pdata[0], work->candidates->n_slots);

  work->wish.what = LID_WISH_SPEND;
  work->wish.amount = first->vector.cost;
  lid_plan_front_clear (front);
  lid_plan_front_init (front, LID_WISH_SPEND, work->candidates->n_slots);
  lid_plan_front_add (front, first);
  search (work, alike, FALSE, front);
  lid_plan_front_sort (front);
  work->wish = wish;
}

/* The cheapest with more usable capacity than the cheapest option has: a search
 * of its own, for it need not be on the front. */
static void
search_more (Work *work, gboolean alike, const LidPlanEntry *cheapest)
{
  LidPlanFront front;
  gboolean proved = work->plan->proved;
  const LidPlanWatch *watch = work->watch;
  LidPlanWatch quiet = { .cancellable = watch != NULL ? watch->cancellable : NULL };

  lid_plan_front_init (&front, LID_WISH_CHEAPEST, work->candidates->n_slots);
  work->spent = 0;
  work->judge.least_mib = cheapest->vector.usable_mib + 1;
  work->wish.budget = MORE_BUDGET;
  work->watch = &quiet;
  if (!settle (work, alike, &front) || !work->wish.any)
    search (work, alike, FALSE, &front);
  if (front.entries->len > 0)
    place_well (work, alike, &front);
  work->watch = watch;
  work->plan->proved = proved;
  if (front.entries->len > 0)
    g_ptr_array_add (work->plan->more, lid_plan_option_new (&work->judge, front.entries->pdata[0]));
  lid_plan_front_clear (&front);
}

static void
explain_nothing (const Work *work)
{
  if (work->plan->front->len > 0)
    return;
  if (!work->plan->proved)
    work->plan->reason = g_strdup (_ ("No plan was found before the search was "
                                      "given up; fewer kinds of module, "
                                      "or a narrower wish, make it shorter."));
  else if (work->candidates->kinds->len == 0)
    work->plan->reason = g_strdup (_ ("There is no module to plan with: name a stock file, or put "
                                      "modules on the job's tray."));
  else if (work->wish.hands != LID_HANDS_PULL && work->question->as_found != NULL
           && lid_population_n_modules (work->question->as_found) > 0)
    work->plan->reason = g_strdup (_ ("With what is at hand, and nothing pulled, no population "
                                      "reaches the wish without something that stops it. Let "
                                      "modules be pulled, and more can be tried."));
  else
    work->plan->reason = g_strdup (_ ("With what is at hand no population reaches the wish without "
                                      "something that stops it."));
}

/* Plans that fill the sockets alike are plans of free sockets too, and found much sooner: with them
 * the search knows from the start what it has to beat. */
static void
search_free (Work *work, gboolean match, LidPlanFront *front)
{
  gboolean proved = work->plan->proved;

  if (match && n_fitted (work) > 1)
    {
      search (work, TRUE, TRUE, front);
      work->plan->proved = proved;
      work->spent = work->plan->steps;
    }
  search (work, FALSE, FALSE, front);
}

static void
search_all (Work *work, gboolean match, gboolean *alike, LidPlanFront *front)
{
  if (*alike)
    search (work, TRUE, FALSE, front);
  if (*alike && front->entries->len > 0)
    return;
  work->plan->uneven = work->plan->uneven || *alike;
  search_free (work, match && !*alike, front);
  *alike = FALSE;
}

static void
work_out (Work *work)
{
  gboolean match = lid_plan_columns_sockets_match (work->question, work->candidates);
  gboolean alike = n_fitted (work) > 1 && !work->wish.sockets_free && match;
  LidPlanFront front;

  lid_plan_front_init (&front, work->wish.what, work->candidates->n_slots);
  work->plan->uneven = n_fitted (work) > 1 && !work->wish.sockets_free && !match;
  if (work->wish.what != LID_WISH_CHEAPEST || !settle (work, alike, &front) || !work->wish.any)
    search_all (work, match, &alike, &front);
  lid_plan_front_sort (&front);
  for (guint i = 0; i < front.entries->len; i++)
    g_ptr_array_add (work->plan->front,
                     lid_plan_option_new (&work->judge, front.entries->pdata[i]));
  if (work->wish.what == LID_WISH_CAPACITY && front.entries->len > 0)
    search_more (work, alike, front.entries->pdata[0]);
  lid_plan_front_clear (&front);
}

/* Only as found can be told anything about. */
static void
offer_as_found (Work *work, const char *reason)
{
  g_autoptr (LidPlanEntry) found = NULL;
  LidWish wish = work->wish;

  wish.what = LID_WISH_REARRANGE;
  work->judge.wish = &wish;
  found = lid_plan_judge_as_found (&work->judge);
  if (found != NULL
      && (work->wish.what != LID_WISH_CAPACITY || found->vector.usable_mib >= work->wish.amount))
    g_ptr_array_add (work->plan->front, lid_plan_option_new (&work->judge, found));
  work->judge.wish = &work->wish;
  work->plan->reason = g_strdup (reason);
}

static gboolean
check_wish (const LidPlanQuestion *question, const LidWish *wish, GError **error)
{
  if (wish->what == LID_WISH_REARRANGE && wish->hands == LID_HANDS_STAY)
    g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                         _ ("nothing can be rearranged if every module stays where it is; let "
                            "modules move"));
  else if (wish->what == LID_WISH_REARRANGE && question->as_found == NULL)
    g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                         _ ("nothing was found in this machine yet, so there is nothing to "
                            "rearrange"));
  else if (wish->amount < 0)
    g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                         _ ("a wish for less than nothing cannot be worked out"));
  else
    return TRUE;
  return FALSE;
}

/* What a rearrangement must not lose; FALSE where that is not known. */
static gboolean
set_least (Work *work)
{
  const LidPlanQuestion *question = work->question;
  g_autoptr (LidAssessment) found = NULL;

  if (work->wish.what == LID_WISH_CAPACITY || work->wish.what == LID_WISH_CHEAPEST)
    work->judge.least_mib = work->wish.amount;
  if (work->wish.what != LID_WISH_REARRANGE)
    return TRUE;
  found = lid_assessment_new_plain (
      &(LidQuestion){ question->board, question->as_found, question->as_found });
  work->judge.least_mib = found->figures.usable_mib;
  return found->figures.usable_known || !found->figures.starts;
}

static LidPlan *
plan_new (void)
{
  LidPlan *plan = g_new0 (LidPlan, 1);

  plan->front = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_plan_option_free);
  plan->more = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_plan_option_free);
  plan->options = g_ptr_array_new ();
  plan->proved = TRUE;
  return plan;
}

/**
 * lid_plan_new:
 * @question: board, what is found, what is at hand
 * @wish: what is asked for
 * @watch: (nullable): cancelling, progress, options as they are found
 * @error: LID_ERROR_BAD_CALL for a wish that contradicts itself
 *
 * Works out the whole front (product.md 8, settled reading 11). On a thread of its own it needs a
 * job of its own, since edits change one in place; boards and modules are read-only and counted
 * atomically. Cancelled, it returns what it has, not proved.
 *
 * Returns: (transfer full): the plan, or NULL with @error set
 */
LidPlan *
lid_plan_new (const LidPlanQuestion *question,
              const LidWish *wish,
              const LidPlanWatch *watch,
              GError **error)
{
  Work work = { .question = question, .wish = *wish, .watch = watch };

  if (!check_wish (question, wish, error))
    return NULL;
  if (wish->what == LID_WISH_REARRANGE)
    work.wish.sockets_free = TRUE;
  work.plan = plan_new ();
  work.candidates = lid_candidates_new (question, &work.wish);
  lid_plan_judge_init (&work.judge, question, &work.wish, work.candidates);
  if (!question->board->channels_told)
    offer_as_found (&work, _ ("Which slots share a channel is not told of this board, so nothing "
                              "but as found can be judged: teach it the channels first."));
  else if (!set_least (&work))
    offer_as_found (&work, _ ("The size of a module that is found is not told, so nothing can be "
                              "held against it: tell its size first."));
  else
    work_out (&work);
  if (work.plan->reason == NULL)
    explain_nothing (&work);
  lid_plan_picks_choose (work.plan, &work.wish);
  lid_plan_judge_clear (&work.judge);
  lid_candidates_free (work.candidates);
  return work.plan;
}

void
lid_plan_free (LidPlan *plan)
{
  if (plan == NULL)
    return;
  g_ptr_array_unref (plan->options);
  g_ptr_array_unref (plan->front);
  g_ptr_array_unref (plan->more);
  g_free (plan->reason);
  g_free (plan);
}
