/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner/plan-shelf.h"

/**
 * lid_plan_shelf_job:
 * @job: a job
 *
 * Returns: (transfer full): the name its reservations are kept under: its number, else what is told
 *   of the machine; the same each time it is opened
 */
char *
lid_plan_shelf_job (const LidJob *job)
{
  const char *const names[] = { job->number, job->asset, job->title, job->board->name };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (names[i] != NULL && *names[i] != 0)
      return g_strdup (names[i]);
  return g_strdup (job->board->id);
}

/**
 * lid_plan_shelf_wanted:
 * @ask: what was planned with
 * @option: one option of the plan for it
 *
 * Returns: (transfer full) (element-type LidReservation): what the option takes from the shelf;
 *   modules that have to be ordered elsewhere are not among it
 */
GPtrArray *
lid_plan_shelf_wanted (const LidPlanAsk *ask, const LidPlanOption *option)
{
  GPtrArray *wanted = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_reservation_free);

  for (guint i = 0; i < option->buys->len; i++)
    {
      const LidPlanBuy *buy = &g_array_index (option->buys, LidPlanBuy, i);
      const LidStockRow *row = ask->rows->pdata[buy->good];

      if (row != NULL)
        g_ptr_array_add (wanted, lid_reservation_new (row, buy->count));
    }
  return wanted;
}
