/* SPDX-License-Identifier: GPL-3.0-or-later */
/* edits.c — the stack: steps that stand, steps that were taken back, and where it was saved. */
#include "job/edits-private.h"

#include "base/error.h"

#include <glib/gi18n-lib.h>

/* Ids of this pattern are ours: "m12". Counting on from the highest, and never giving one twice,
 * keeps an id that was dropped from meaning another module later. */
static guint64
first_free_id (const LidJob *job)
{
  guint64 highest = job->modules->len;

  for (guint i = 0; i < job->modules->len; i++)
    {
      const LidModule *module = job->modules->pdata[i];
      guint64 n;

      if (module->id != NULL && module->id[0] == 'm'
          && g_ascii_string_to_unsigned (module->id + 1, 10, 0, G_MAXUINT32, &n, NULL))
        highest = MAX (highest, n);
    }
  return highest + 1;
}

/**
 * lid_edits_new:
 * @job: (transfer full): the job to work on, counted as saved
 *
 * Returns: (transfer full): the job with nothing to undo
 */
LidEdits *
lid_edits_new (LidJob *job)
{
  LidEdits *edits = g_new0 (LidEdits, 1);

  edits->job = job;
  edits->steps = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_step_free);
  edits->next_id = first_free_id (job);
  return edits;
}

/**
 * lid_edits_free:
 * @edits: (nullable): what is freed, the job too
 */
void
lid_edits_free (LidEdits *edits)
{
  if (edits == NULL)
    return;
  g_ptr_array_unref (edits->steps);
  lid_job_free (edits->job);
  g_free (edits);
}

/**
 * lid_edits_job:
 *
 * Returns: (transfer none): the job as it stands
 */
const LidJob *
lid_edits_job (const LidEdits *edits)
{
  return edits->job;
}

/**
 * lid_edits_population:
 * @of: which of the three
 *
 * Returns: (transfer none) (nullable): it, good until the next edit, undo or redo
 */
const LidPopulation *
lid_edits_population (const LidEdits *edits, LidOf of)
{
  return lid_job_get_population (edits->job, of);
}

/**
 * lid_edits_tray:
 * @of: the population looked at
 *
 * Returns: (transfer container) (element-type LidTrayGroup): see lid_tray_list(); good until the
 * next edit, undo or redo
 */
GPtrArray *
lid_edits_tray (const LidEdits *edits, LidOf of)
{
  return lid_tray_list (edits->job, of);
}

gboolean
lid_edits_can_undo (const LidEdits *edits)
{
  return edits->done > 0;
}

gboolean
lid_edits_can_redo (const LidEdits *edits)
{
  return edits->done < edits->steps->len;
}

/**
 * lid_edits_undo_name:
 *
 * Returns: (transfer none) (nullable): what the next undo takes back, in the reader's language:
 * "fill A1"; NULL when there is nothing
 */
const char *
lid_edits_undo_name (const LidEdits *edits)
{
  return edits->done > 0 ? lid_step_get_name (edits->steps->pdata[edits->done - 1]) : NULL;
}

/**
 * lid_edits_redo_name:
 *
 * Returns: (transfer none) (nullable): what the next redo does again; NULL when there is nothing
 */
const char *
lid_edits_redo_name (const LidEdits *edits)
{
  return lid_edits_can_redo (edits) ? lid_step_get_name (edits->steps->pdata[edits->done]) : NULL;
}

/* What was put by on a shelf is put by whatever is undone: it stands in no step, and comes along
 * where a step exchanges the job as a whole. */
static void
swap (LidEdits *edits, LidStep *step)
{
  g_autofree char *in = g_strdup (edits->job->reserved_in);
  g_autofree char *as = g_strdup (edits->job->reserved_as);

  lid_step_swap (step, edits->job);
  lid_job_set_text (&edits->job->reserved_in, in);
  lid_job_set_text (&edits->job->reserved_as, as);
}

/**
 * lid_edits_set_reserved:
 * @in: (nullable): the stock file of which modules are put by for the job; NULL: none are
 * @as: (nullable): the name they are put by under
 *
 * No step: undoing an edit gives nothing back to a shelf.
 */
void
lid_edits_set_reserved (LidEdits *edits, const char *in, const char *as)
{
  if (g_strcmp0 (edits->job->reserved_in, in) == 0 && g_strcmp0 (edits->job->reserved_as, as) == 0)
    return;
  lid_job_set_text (&edits->job->reserved_in, in);
  lid_job_set_text (&edits->job->reserved_as, as);
  lid_edits_mark_unsaved (edits);
}

/**
 * lid_edits_undo:
 *
 * Returns: whether there was a step to take back
 */
gboolean
lid_edits_undo (LidEdits *edits)
{
  if (!lid_edits_can_undo (edits))
    return FALSE;
  swap (edits, edits->steps->pdata[--edits->done]);
  return TRUE;
}

/**
 * lid_edits_redo:
 *
 * Returns: whether there was a step to do again
 */
gboolean
lid_edits_redo (LidEdits *edits)
{
  if (!lid_edits_can_redo (edits))
    return FALSE;
  swap (edits, edits->steps->pdata[edits->done++]);
  return TRUE;
}

/**
 * lid_edits_changed:
 *
 * Returns: whether the job differs from what was last saved; undoing back to there counts as saved
 */
gboolean
lid_edits_changed (const LidEdits *edits)
{
  return edits->done != edits->saved;
}

/**
 * lid_edits_mark_saved:
 *
 * What stands now is what is on disk.
 */
void
lid_edits_mark_saved (LidEdits *edits)
{
  edits->saved = edits->done;
}

/**
 * lid_edits_mark_unsaved:
 *
 * What stands now is nowhere on disk, as after a recovery; only saving changes that.
 */
void
lid_edits_mark_unsaved (LidEdits *edits)
{
  edits->saved = G_MAXUINT;
}

/**
 * lid_edits_commit:
 * @edits: a job
 * @step: (transfer full): what shall happen; without a change nothing does
 * @error: LID_ERROR_NEWER for a job that is open for reading only
 *
 * Returns: whether it happened
 */
gboolean
lid_edits_commit (LidEdits *edits, LidStep *step, GError **error)
{
  if (edits->job->read_only)
    {
      lid_step_free (step);
      g_set_error_literal (error, LID_ERROR, LID_ERROR_NEWER,
                           _ ("this job was written by a newer version and is open for reading "
                              "only"));
      return FALSE;
    }
  if (lid_step_is_empty (step))
    {
      lid_step_free (step);
      return TRUE;
    }
  if (edits->saved != G_MAXUINT && edits->saved > edits->done)
    edits->saved = G_MAXUINT;
  g_ptr_array_set_size (edits->steps, (int)edits->done);
  g_ptr_array_add (edits->steps, step);
  edits->done++;
  swap (edits, step);
  return TRUE;
}

/**
 * lid_edits_commit_population:
 * @of: which population
 * @after: (transfer full): what it becomes
 * @name: (transfer full): the step's name
 *
 * Returns: whether it happened
 */
gboolean
lid_edits_commit_population (
    LidEdits *edits, LidOf of, LidPopulation *after, char *name, GError **error)
{
  LidStep *step = lid_step_new (name);

  lid_step_population (step, edits->job, of, after);
  return lid_edits_commit (edits, step, error);
}

/**
 * lid_edits_become:
 * @edits: a job
 * @job: (transfer full): what it becomes as a whole: the same job on another board, as
 * lid_job_teach() makes it
 * @name: the step's name in the reader's language
 * @error: a job open for reading only
 *
 * The pointer lid_edits_job() gives stays the same; all in it is new, the board too.
 *
 * Returns: whether it happened
 */
gboolean
lid_edits_become (LidEdits *edits, LidJob *job, const char *name, GError **error)
{
  LidStep *step = lid_step_new (g_strdup (name));

  edits->next_id = MAX (edits->next_id, first_free_id (job));
  lid_step_job (step, job);
  return lid_edits_commit (edits, step, error);
}

/**
 * lid_edits_draft:
 * @of: which population
 *
 * Returns: (transfer full): a copy to work on; of one that does not exist yet, what it begins as
 */
LidPopulation *
lid_edits_draft (const LidEdits *edits, LidOf of)
{
  for (int at = of; at >= LID_AS_FOUND; at--)
    {
      const LidPopulation *population = lid_job_get_population (edits->job, (LidOf)at);

      if (population != NULL)
        return lid_population_copy (population);
    }
  return lid_population_new (edits->job->board);
}

/**
 * lid_edits_find:
 * @id: a module's id
 * @error: LID_ERROR_NOT_FOUND
 *
 * Returns: (transfer none) (nullable): the job's module of that id
 */
LidModule *
lid_edits_find (const LidEdits *edits, const char *id, GError **error)
{
  LidModule *module = id != NULL ? lid_job_find_module (edits->job, id) : NULL;

  if (module == NULL)
    g_set_error (error, LID_ERROR, LID_ERROR_NOT_FOUND, _ ("the job has no module “%s”"),
                 id != NULL ? id : "");
  return module;
}
