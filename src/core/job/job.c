/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/job.h"

static const char *const names[LID_N_OF] = { "as-found", "planned", "as-left" };

static void
stage_free (gpointer data)
{
  LidStage *stage = data;

  g_free (stage->name);
  lid_population_free (stage->population);
  g_free (stage);
}

static void
history_free (gpointer data)
{
  LidHistoryEntry *entry = data;

  g_free (entry->when);
  g_free (entry->who);
  g_free (entry->what);
  g_free (entry->text);
  g_free (entry);
}

/**
 * lid_job_new_stages:
 *
 * Returns: (transfer full): an empty list of LidStage, which it owns
 */
GPtrArray *
lid_job_new_stages (void)
{
  return g_ptr_array_new_with_free_func (stage_free);
}

/**
 * lid_job_new:
 * @board: (transfer none): the machine's board
 *
 * Returns: (transfer full): a job with nothing found, planned or left yet
 */
LidJob *
lid_job_new (LidBoard *board)
{
  LidJob *job = g_new0 (LidJob, 1);

  job->board = lid_board_ref (board);
  job->modules = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_module_unref);
  job->stages = lid_job_new_stages ();
  job->trials = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_trial_free);
  job->history = g_ptr_array_new_with_free_func (history_free);
  return job;
}

void
lid_job_free (LidJob *job)
{
  if (job == NULL)
    return;
  g_free (job->title);
  g_free (job->owner);
  g_free (job->asset);
  g_free (job->number);
  g_free (job->shop);
  g_free (job->technician);
  g_free (job->notes);
  g_free (job->match);
  lid_population_free (job->as_found);
  g_ptr_array_unref (job->stages);
  lid_population_free (job->as_left);
  g_ptr_array_unref (job->modules);
  g_ptr_array_unref (job->trials);
  g_ptr_array_unref (job->history);
  g_clear_pointer (&job->original, json_node_unref);
  g_free (job->reserved_in);
  g_free (job->reserved_as);
  lid_board_unref (job->board);
  g_free (job);
}

/**
 * lid_job_get_population:
 * @of: which of the three
 *
 * Returns: (transfer none) (nullable): it; planned means the last stage, the machine as it shall
 * become when all stages are done
 */
const LidPopulation *
lid_job_get_population (const LidJob *job, LidOf of)
{
  switch (of)
    {
    case LID_AS_FOUND:
      return job->as_found;
    case LID_PLANNED:
      if (job->stages->len == 0)
        return NULL;
      return ((LidStage *)job->stages->pdata[job->stages->len - 1])->population;
    case LID_AS_LEFT:
      return job->as_left;
    case LID_N_OF:
    default:
      g_return_val_if_reached (NULL);
    }
}

/**
 * lid_job_set_text:
 * @field: one of the job's texts
 * @text: (nullable): the new text; empty counts as none
 */
void
lid_job_set_text (char **field, const char *text)
{
  char *copy = text != NULL && *text != 0 ? g_strdup (text) : NULL;

  g_free (*field);
  *field = copy;
}

LidModule *
lid_job_find_module (const LidJob *job, const char *id)
{
  for (guint i = 0; i < job->modules->len; i++)
    {
      LidModule *module = job->modules->pdata[i];
      if (g_strcmp0 (module->id, id) == 0)
        return module;
    }
  return NULL;
}

/**
 * lid_job_add_module:
 * @job: a job
 * @module: (transfer full): an unshared module; gets an id of its own when it has none or a taken
 * one
 *
 * Returns: (transfer none): the module
 */
LidModule *
lid_job_add_module (LidJob *job, LidModule *module)
{
  for (guint n = job->modules->len + 1;
       module->id == NULL || lid_job_find_module (job, module->id) != NULL; n++)
    {
      g_free (module->id);
      module->id = g_strdup_printf ("m%u", n);
    }
  g_ptr_array_add (job->modules, module);
  return module;
}

/**
 * lid_job_remember:
 * @job: a job
 * @what: "read", "changed", "proved", …
 * @format: one sentence
 *
 * Adds a line to the history, with the time and the technician.
 */
void
lid_job_remember (LidJob *job, const char *what, const char *format, ...)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  LidHistoryEntry *entry = g_new0 (LidHistoryEntry, 1);
  va_list args;

  va_start (args, format);
  entry->text = g_strdup_vprintf (format, args);
  va_end (args);
  entry->when = g_date_time_format_iso8601 (now);
  entry->who = g_strdup (job->technician);
  entry->what = g_strdup (what);
  g_ptr_array_add (job->history, entry);
}

/**
 * lid_of_to_text:
 *
 * Returns: "as-found", "planned" or "as-left"
 */
const char *
lid_of_to_text (LidOf of)
{
  g_return_val_if_fail ((guint)of < LID_N_OF, NULL);
  return names[of];
}

LidOf
lid_of_from_text (const char *text, gboolean *found)
{
  for (guint i = 0; i < LID_N_OF; i++)
    if (g_strcmp0 (text, names[i]) == 0)
      {
        *found = TRUE;
        return i;
      }
  *found = FALSE;
  return LID_AS_FOUND;
}
