/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stage-option.h"

#include <glib/gi18n.h>

/**
 * lid_stage_option_find:
 * @job: a job
 * @stage: from 1; 0: none was asked for, so from what was found to the last
 * @from: (out) (nullable): where that begins: as found, or the stage before
 * @to: (out): where it ends
 * @why: (out) (transfer full): one sentence, where there is no such stage
 *
 * Returns: whether there is
 */
gboolean
lid_stage_option_find (
    const LidJob *job, int stage, const LidPopulation **from, const LidPopulation **to, char **why)
{
  guint n = job->stages->len;

  *from = job->as_found;
  *to = lid_job_get_population (job, LID_PLANNED);
  if (n == 0)
    {
      *why = g_strdup (_ ("the job holds no plan; plan first, or read it into the window and fill "
                          "its slots"));
      return FALSE;
    }
  if (*from == NULL)
    {
      *why = g_strdup (_ ("the job does not say what was found, so there is nothing to begin with; "
                          "read the machine into it first"));
      return FALSE;
    }
  if (stage == 0)
    return TRUE;
  if (stage < 0 || (guint)stage > n)
    {
      *why = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                           "the job has %u stage, so there is no stage %d",
                                           "the job has %u stages, so there is no stage %d", n),
                              n, stage);
      return FALSE;
    }
  if (stage > 1)
    *from = ((LidStage *)job->stages->pdata[stage - 2])->population;
  *to = ((LidStage *)job->stages->pdata[stage - 1])->population;
  return TRUE;
}
