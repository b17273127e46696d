/* SPDX-License-Identifier: GPL-3.0-or-later */
/* trace-note.c — a start as somebody tells it becomes a trial of the job. */
#include "trace/trace-note.h"

#include "base/error.h"
#include "board/slot-list.h"
#include "trace/trace-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Where hands begin: at the last start, at the first with the fault, or at what the trace proposed;
 * before any, with what the job holds last. */
static LidTrial *
begin (const LidJob *job, const LidTrialNote *note, GError **error)
{
  const LidPopulation *population = job->as_left;
  const LidTrial *last = job->trials->len > 0 ? job->trials->pdata[job->trials->len - 1] : NULL;
  LidTraceCase about;

  if (note->did_next)
    {
      g_autoptr (LidTrace) trace = lid_trace_new (job);

      if (trace->next != NULL)
        return g_steal_pointer (&trace->next->trial);
      g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                           _ ("nothing is proposed that could have been done; say what was done"));
      return NULL;
    }
  if (note->back)
    {
      if (lid_suspects_case (job->board, job->trials, &about))
        return lid_trial_new (((LidTrial *)job->trials->pdata[about.first])->population);
      g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                           _ ("no start with a fault is noted yet to go back to"));
      return NULL;
    }
  if (last != NULL && !last->ended)
    return lid_trial_next (last);
  if (population == NULL && last != NULL)
    population = last->population;
  if (population == NULL)
    population = lid_job_get_population (job, LID_PLANNED);
  if (population == NULL)
    population = job->as_found;
  if (population != NULL)
    return lid_trial_new (population);
  g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                       _ ("the job does not say which module is where; read the machine first"));
  return NULL;
}

/* Where the fault showed. */
static gboolean
mark_fault (LidTrial *trial, const LidJob *job, const LidTrialNote *note, GError **error)
{
  if (note->at == NULL)
    return TRUE;
  if (!lid_slot_list_mark (job->board, note->at, trial->at, error))
    return FALSE;
  for (guint i = 0; i < job->board->n_slots; i++)
    if (trial->at[i] && trial->population->slots[i].module == NULL)
      {
        g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                     _ ("slot %s was empty at that start, so no fault shows there"),
                     job->board->slots[i].id);
        return FALSE;
      }
  if (lid_trial_is_told_where (trial))
    return TRUE;
  g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                       _ ("no slot is named; where nobody can tell it, say --fault-somewhere"));
  return FALSE;
}

static gboolean
is_seated_alike (const LidPopulation *a, const LidPopulation *b)
{
  for (guint i = 0; i < a->n_slots; i++)
    if (a->slots[i].module != b->slots[i].module)
      return FALSE;
  return TRUE;
}

/* Processors are told by the socket they were in at first, and that is now. */
static void
begin_anew (LidJob *job, LidTrial *trial)
{
  ((LidTrial *)job->trials->pdata[job->trials->len - 1])->ended = TRUE;
  for (guint s = 0; s < trial->n_sockets; s++)
    trial->processor_of[s] = s;
  trial->eased = FALSE;
}

/* What is in the machine at that start is what is left in it; with a fault, or with a module moved,
 * it is proved no more. */
static void
leave (LidJob *job, const LidTrial *trial)
{
  gboolean is_moved = job->as_left != NULL && !is_seated_alike (job->as_left, trial->population);

  if (is_moved)
    {
      lid_population_free (job->as_left);
      job->as_left = lid_population_copy (trial->population);
    }
  if (is_moved || trial->outcome == LID_OUTCOME_FAULT)
    job->proved = FALSE;
}

/**
 * lid_trace_note:
 * @job: gets the trial; as left goes along with the modules, and is proved no more once one moved
 * or a fault showed
 * @note: borrowed
 * @error: LID_ERROR_NOT_FOUND: no such slot; LID_ERROR_BAD_CALL: it cannot have been done;
 *   LID_ERROR_TOO_LARGE: as many as a job holds
 */
gboolean
lid_trace_note (LidJob *job, const LidTrialNote *note, GError **error)
{
  g_autoptr (LidTrial) trial = begin (job, note, error);

  if (trial == NULL)
    return FALSE;
  if (!lid_trace_hands (trial, job, note, error) || !mark_fault (trial, job, note, error))
    return FALSE;
  if (job->trials->len >= LID_JOB_MAX_TRIALS)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_TOO_LARGE,
                   _ ("a job holds %u starts, and this one has as many"), LID_JOB_MAX_TRIALS);
      return FALSE;
    }
  if (note->anew && job->trials->len > 0)
    begin_anew (job, trial);
  trial->eased |= note->eased;
  trial->outcome = note->outcome;
  leave (job, trial);
  g_ptr_array_add (job->trials, g_steal_pointer (&trial));
  lid_job_remember (job, "traced", "%s",
                    note->outcome == LID_OUTCOME_FAULT   ? _ ("a start with the fault")
                    : note->outcome == LID_OUTCOME_CLEAN ? _ ("a start without the fault")
                                                         : _ ("a start that tells nothing"));
  return TRUE;
}

/**
 * lid_trace_forget_last:
 * @job: its last start was noted wrongly and is noted no more
 * @error: LID_ERROR_BAD_CALL: none is noted
 */
gboolean
lid_trace_forget_last (LidJob *job, GError **error)
{
  if (job->trials->len == 0)
    {
      g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                           _ ("no start is noted that could be forgotten"));
      return FALSE;
    }
  g_ptr_array_remove_index (job->trials, job->trials->len - 1);
  if (job->trials->len > 0)
    leave (job, job->trials->pdata[job->trials->len - 1]);
  lid_job_remember (job, "traced", "%s", _ ("the start noted last is forgotten"));
  return TRUE;
}

/**
 * lid_trace_end:
 * @job: what is noted from now on is another search
 * @error: LID_ERROR_BAD_CALL: none is noted
 */
gboolean
lid_trace_end (LidJob *job, GError **error)
{
  if (job->trials->len == 0)
    {
      g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                           _ ("no start is noted, so the search is a new one already"));
      return FALSE;
    }
  ((LidTrial *)job->trials->pdata[job->trials->len - 1])->ended = TRUE;
  lid_job_remember (job, "traced", "%s", _ ("the search is over"));
  return TRUE;
}
