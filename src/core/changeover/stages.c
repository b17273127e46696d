/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "changeover/stages.h"

#include "base/error.h"
#include "base/units.h"
#include "changeover/stage-split.h"
#include "job/job-file.h"

#include <glib/gi18n-lib.h>
#include <string.h>

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

/**
 * lid_stages_copy_job:
 * @job: a job
 * @error: it cannot be copied: it holds what no job file may hold
 *
 * Returns: (transfer full) (nullable): the job once more, on the same board: to be split, and to
 *   become the job by lid_edits_become() without the board being another one
 */
LidJob *
lid_stages_copy_job (const LidJob *job, GError **error)
{
  g_autofree char *text = lid_job_file_to_text (job);
  LidJob *copy = lid_job_file_parse (text, strlen (text), error);

  if (copy == NULL)
    return NULL;
  lid_board_unref (copy->board);
  copy->board = lid_board_ref (job->board);
  return copy;
}

/**
 * lid_stages_keep_one:
 * @job: in stages
 * @stage: one of them, from 1
 *
 * The plan becomes what that stage is; nothing is left for later.
 */
void
lid_stages_keep_one (LidJob *job, guint stage)
{
  LidStage *kept;

  g_return_if_fail (stage > 0 && stage <= job->stages->len);
  kept = stage_new (NULL,
                    g_steal_pointer (&((LidStage *)job->stages->pdata[stage - 1])->population));
  g_ptr_array_set_size (job->stages, 0);
  g_ptr_array_add (job->stages, kept);
  lid_job_remember (job, "changed", _ ("one stage of the plan became the plan"));
}

/**
 * lid_stages_every_way:
 * @job: in stages
 *
 * Returns: whether every way to split it was tried, so that none is better
 */
gboolean
lid_stages_every_way (const LidJob *job)
{
  const LidPopulation *plan = lid_job_get_population (job, LID_PLANNED);
  guint n = 0;

  if (plan != NULL && job->as_found != NULL)
    {
      g_autoptr (LidChanges) changes = lid_changes_new (job->board, job->as_found, plan);

      for (guint i = 0; i < changes->n_slots; i++)
        n += lid_stage_split_asks (&changes->slots[i]);
    }
  return n <= LID_STAGE_EXACT;
}

/**
 * lid_stages_not_every_way:
 *
 * Returns: (transfer none): the sentence to say where lid_stages_every_way() is not so
 */
const char *
lid_stages_not_every_way (void)
{
  return _ ("More than eight slots are in question, so not every way was tried: for tonight there "
            "may be a better one.");
}

/**
 * lid_stages_describe:
 * @job: in stages
 * @stage: one of them, from 1
 * @assessment: of that stage
 *
 * Returns: (transfer full): what is done in it and what the machine then has, one sentence
 */
char *
lid_stages_describe (const LidJob *job, guint stage, const LidAssessment *assessment)
{
  const LidStage *at = job->stages->pdata[stage - 1];
  const LidFigures *figures = &assessment->figures;
  gboolean last = stage == job->stages->len;
  g_autofree char *usable = NULL;
  guint hands = 0;

  if (lid_assessment_worst (assessment) == LID_GRADE_STOPS)
    return g_strdup (_ ("Something stops it: see what the checker says of it."));
  if (job->as_found != NULL)
    {
      g_autoptr (LidChanges) changes
          = lid_changes_new (job->board, lid_stages_before (job, stage), at->population);

      hands = changes->hands;
    }
  usable = figures->starts && figures->usable_known ? lid_units_capacity (figures->usable_mib)
                                                    : g_strdup (_ ("a size that is not told"));
  if (last)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                         "%u module is touched, and then %s can be used.",
                                         "%u modules are touched, and then %s can be used.", hands),
                            hands, usable);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "%u module is touched, and %s can be used until the rest is there.",
                   "%u modules are touched, and %s can be used until the rest is there.", hands),
      hands, usable);
}
