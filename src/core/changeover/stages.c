/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "changeover/stages.h"

#include "base/error.h"
#include "job/tray.h"

#include <glib/gi18n-lib.h>

/**
 * lid_stages_to_buy:
 * @job: with a plan
 *
 * Returns: (transfer full): the set of the plan's modules (LidModule, borrowed) that are neither in
 *   the machine nor on a shelf: those that can be missing
 */
GHashTable *
lid_stages_to_buy (const LidJob *job)
{
  const LidPopulation *plan = lid_job_get_population (job, LID_PLANNED);
  GHashTable *missing = g_hash_table_new (NULL, NULL);

  for (guint i = 0; plan != NULL && i < plan->n_slots; i++)
    if (plan->slots[i].module != NULL
        && lid_tray_origin (job, plan->slots[i].module) == LID_TRAY_TO_BUY)
      g_hash_table_add (missing, plan->slots[i].module);
  return missing;
}

/**
 * lid_stages_before:
 * @job: a job
 * @stage: one of its stages, from 1
 *
 * Returns: (transfer none) (nullable): the population that stage begins with
 */
const LidPopulation *
lid_stages_before (const LidJob *job, guint stage)
{
  if (stage < 2 || stage > job->stages->len)
    return job->as_found;
  return ((LidStage *)job->stages->pdata[stage - 2])->population;
}

static LidStage *
stage_new (const char *name, LidPopulation *population)
{
  LidStage *stage = g_new0 (LidStage, 1);

  stage->name = g_strdup (name);
  stage->population = population;
  return stage;
}

/**
 * lid_stages_split_job:
 * @job: with a plan; gets two stages, tonight and later; later is the plan as it stands
 * @missing: set of LidModule of the plan that are not at hand
 * @error: LID_ERROR_BAD_CALL: nothing is missing, or nothing can be done tonight
 *
 * Returns: whether it was split; if not, the job is as it was
 */
gboolean
lid_stages_split_job (LidJob *job, GHashTable *missing, GError **error)
{
  const LidPopulation *plan = lid_job_get_population (job, LID_PLANNED);
  LidPopulation *tonight, *later;

  if (plan == NULL || job->as_found == NULL)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("stages need both what was found and a plan; one of them is not there"));
      return FALSE;
    }
  tonight = lid_stage_split (job->board, job->as_found, plan, missing, error);
  if (tonight == NULL)
    return FALSE;
  later = lid_population_copy (plan);
  g_ptr_array_set_size (job->stages, 0);
  g_ptr_array_add (job->stages, stage_new (_ ("tonight"), tonight));
  g_ptr_array_add (job->stages, stage_new (_ ("later"), later));
  lid_job_remember (job, "changed", _ ("plan split into two stages"));
  return TRUE;
}
