/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/stages-split.h"

#include "changeover/stage-parts.h"
#include "changeover/stages.h"

typedef struct
{
  LidJob *job; /* owned: the thread's own until it is done */
  GHashTable *missing;
} Work;

static void
work_free (Work *work)
{
  g_clear_pointer (&work->job, lid_job_free);
  g_clear_pointer (&work->missing, g_hash_table_unref);
  g_free (work);
}

static void
run (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Work *work = data;
  GError *error = NULL;

  if (lid_stages_split_job (work->job, work->missing, &error))
    g_task_return_pointer (task, g_steal_pointer (&work->job), (GDestroyNotify)lid_job_free);
  else
    g_task_return_error (task, error);
}

/**
 * lid_stages_split_async:
 * @job: with a plan; copied
 * @missing: how many of each part of lid_stage_parts_new() are not there
 * @n_parts: how many parts that are
 * @done: called when it is split, or cannot be
 */
void
lid_stages_split_async (
    const LidJob *job, const guint *missing, guint n_parts, GAsyncReadyCallback done, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, NULL, done, data);
  g_autoptr (GPtrArray) parts = NULL;
  Work *work = g_new0 (Work, 1);
  GError *error = NULL;

  g_task_set_task_data (task, work, (GDestroyNotify)work_free);
  work->job = lid_stages_copy_job (job, &error);
  if (work->job == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  parts = lid_stage_parts_new (work->job);
  for (guint i = 0; i < MIN (parts->len, n_parts); i++)
    ((LidStagePart *)parts->pdata[i])->missing = missing[i];
  work->missing = lid_stage_parts_missing (parts);
  g_task_run_in_thread (task, run);
}

/**
 * lid_stages_split_finish:
 *
 * Returns: (transfer full): the job in two stages; %NULL with what lid_stages_split_job() says
 */
LidJob *
lid_stages_split_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
