/* SPDX-License-Identifier: GPL-3.0-or-later */
/* plan-ask.c: what a job and a shelf have to plan with.
 *
 * What the job has in hand costs nothing: modules found, and modules on its tray whose serial
 * number is known, or which lie in a bin while no stock file is named. What an earlier plan took
 * from the shelf lies on the tray too, without a serial number and not paid for: with a stock file
 * it is of the shelf again, where its reservation is this job's own, so that the same question has
 * the same answer before and after a plan was taken. Modules that are to be bought somewhere have
 * no price. */
#include "planner/plan-ask.h"

/* Gathers rows kind by kind; of a kind all rows share the facts of the first. */
static void
add_stock (LidPlanAsk *ask, const LidStock *stock)
{
  ask->kinds = lid_stock_reduce (stock, ask->question.board->n_slots);
  for (guint i = 0; i < ask->kinds->len; i++)
    {
      const LidStockKind *kind = ask->kinds->pdata[i];

      for (guint k = 0; k < kind->rows->len; k++)
        {
          LidStockRow *row = kind->rows->pdata[k];
          LidGood good
              = { .module = kind->module,
                  .part = row->part,
                  .label = row->label,
                  .bin = row->bin,
                  .count = lid_stock_row_free_count (row),
                  .price_minor = row->price_minor >= 0 ? row->price_minor : LID_PLAN_NO_PRICE };

          g_array_append_val (ask->goods, good);
          g_ptr_array_add (ask->rows, row);
        }
    }
}

static void
add_tray (LidPlanAsk *ask, const LidJob *job, const LidStock *stock)
{
  for (guint i = 0; i < job->modules->len; i++)
    {
      LidModule *module = job->modules->pdata[i];
      LidTrayOrigin origin = lid_tray_origin (job, module);
      LidGood good = { .module = module,
                       .part = module->part,
                       .label = module->label,
                       .count = 1,
                       .price_minor = LID_PLAN_NO_PRICE };

      if (origin == LID_TRAY_PULLED)
        continue;
      if (module->serial != NULL || (origin == LID_TRAY_STOCK && stock == NULL))
        g_ptr_array_add (ask->tray, module);
      else if (origin == LID_TRAY_TO_BUY)
        {
          g_array_append_val (ask->goods, good);
          g_ptr_array_add (ask->rows, NULL);
        }
    }
}

/**
 * lid_plan_ask_new:
 * @job: a job
 * @stock: (nullable): the shelf, its reservations applied
 *
 * Returns: (transfer full): the question that the wish goes with
 */
LidPlanAsk *
lid_plan_ask_new (const LidJob *job, const LidStock *stock)
{
  LidPlanAsk *ask = g_new0 (LidPlanAsk, 1);

  ask->question.board = job->board;
  ask->question.as_found = job->as_found;
  ask->question.settings = lid_job_get_population (job, LID_PLANNED);
  ask->goods = g_array_new (FALSE, TRUE, sizeof (LidGood));
  ask->rows = g_ptr_array_new ();
  ask->tray = g_ptr_array_new ();
  if (stock != NULL)
    {
      add_stock (ask, stock);
      ask->currency = stock->currency;
    }
  add_tray (ask, job, stock);
  ask->question.tray = (LidModule *const *)ask->tray->pdata;
  ask->question.n_tray = ask->tray->len;
  ask->question.goods = (const LidGood *)ask->goods->data;
  ask->question.n_goods = ask->goods->len;
  return ask;
}

void
lid_plan_ask_free (LidPlanAsk *ask)
{
  if (ask == NULL)
    return;
  g_array_unref (ask->goods);
  g_ptr_array_unref (ask->rows);
  g_ptr_array_unref (ask->tray);
  g_clear_pointer (&ask->kinds, g_ptr_array_unref);
  g_free (ask);
}
