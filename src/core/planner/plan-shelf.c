/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner/plan-shelf.h"

#include <string.h>

/**
 * lid_plan_shelf_job:
 * @job: a job
 *
 * A number or an asset that was changed names another machine: a job saved under another name for
 * the next machine does not give back what the first one had put by. A job of which nothing is told
 * is named after the moment, so that two machines of one board are two.
 *
 * Returns: (transfer full): the name its reservations are kept under: its number, else its asset,
 *   else the name they were made under, else its title
 */
char *
lid_plan_shelf_job (const LidJob *job)
{
  const char *const names[] = { job->number, job->asset, job->reserved_as, job->title };
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *when = g_date_time_format (now, "%Y-%m-%d %H:%M:%S");

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (names[i] != NULL && *names[i] != 0)
      return g_strdup (names[i]);
  return g_strdup_printf ("%s, %s", job->board->name != NULL ? job->board->name : job->board->id,
                          when);
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

/* What another shelf had put by for the job under the same name: a plan is taken from one shelf. */
static gboolean
give_back_elsewhere (const LidJob *job, const char *path, const char *name, GError **error)
{
  guint n;

  if (job->reserved_in == NULL || strcmp (job->reserved_in, path) == 0
      || g_strcmp0 (job->reserved_as, name) != 0)
    return TRUE;
  return lid_reserved_release (job->reserved_in, name, &n, error);
}

/**
 * lid_plan_shelf_reserve:
 * @edits: the job the plan is for: it comes to know where modules are put by for it
 * @stock_path: the stock file that was planned with
 * @options: (nullable): as it was read with
 * @wanted: what lid_plan_shelf_wanted() says
 * @error: as for lid_reserved_take()
 *
 * What was put by for the job elsewhere is given back; where it cannot be, nothing is put by here.
 *
 * Returns: whether it is reserved; if not, the job is as it was
 */
gboolean
lid_plan_shelf_reserve (LidEdits *edits,
                        const char *stock_path,
                        const LidStockOptions *options,
                        GPtrArray *wanted,
                        GError **error)
{
  const LidJob *job = lid_edits_job (edits);
  g_autofree char *name = lid_plan_shelf_job (job);
  g_autofree char *path = g_canonicalize_filename (stock_path, NULL);
  guint n;

  if (!lid_reserved_take (stock_path, options, name, wanted, error))
    return FALSE;
  if (!give_back_elsewhere (job, path, name, error))
    {
      lid_reserved_release (stock_path, name, &n, NULL);
      return FALSE;
    }
  if (wanted->len > 0)
    lid_edits_set_reserved (edits, path, name);
  else if (g_strcmp0 (job->reserved_as, name) == 0)
    lid_edits_set_reserved (edits, NULL, NULL);
  return TRUE;
}

/**
 * lid_plan_shelf_held:
 * @job: a job
 * @n_modules: (out): how many modules are put by for it
 * @error: the reservations cannot be read
 *
 * Returns: whether that can be told; of a job that nothing was put by for it is told: none
 */
gboolean
lid_plan_shelf_held (const LidJob *job, guint *n_modules, GError **error)
{
  *n_modules = 0;
  if (job->reserved_in == NULL || job->reserved_as == NULL)
    return TRUE;
  return lid_reserved_count (job->reserved_in, job->reserved_as, n_modules, error);
}

/**
 * lid_plan_shelf_release:
 * @edits: a job that is done
 * @n_modules: (out): how many modules are free again
 * @error: as for lid_reserved_release()
 *
 * Returns: whether nothing is put by for it any more
 */
gboolean
lid_plan_shelf_release (LidEdits *edits, guint *n_modules, GError **error)
{
  const LidJob *job = lid_edits_job (edits);

  *n_modules = 0;
  if (job->reserved_in == NULL || job->reserved_as == NULL)
    return TRUE;
  if (!lid_reserved_release (job->reserved_in, job->reserved_as, n_modules, error))
    return FALSE;
  lid_edits_set_reserved (edits, NULL, NULL);
  return TRUE;
}
