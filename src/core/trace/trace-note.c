/* SPDX-License-Identifier: GPL-3.0-or-later */
/* trace-note.c — a start as somebody tells it becomes a trial of the job. */
#include "trace/trace-note.h"

#include "base/error.h"
#include "board/slot-list.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
swap (LidTrial *trial, const LidBoard *board, const char *pair, GError **error)
{
  g_autofree guint8 *marks = g_new0 (guint8, board->n_slots + 1);
  guint slots[2], n = 0;

  if (!lid_slot_list_mark (board, pair, marks, error))
    return FALSE;
  for (guint i = 0; i < board->n_slots; i++)
    if (marks[i] && n++ < 2)
      slots[n - 1] = i;
  if (n != 2)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("two slots change places, with a comma between them; not “%s”"), pair);
      return FALSE;
    }
  if (board->slots[slots[0]].soldered != NULL || board->slots[slots[1]].soldered != NULL)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("memory that is soldered in does not change places: “%s”"), pair);
      return FALSE;
    }
  lid_trial_swap (trial, slots[0], slots[1]);
  return TRUE;
}

static gboolean
take_out (LidTrial *trial, const LidBoard *board, const char *list, GError **error)
{
  g_autofree guint8 *marks = g_new0 (guint8, board->n_slots + 1);

  if (!lid_slot_list_mark (board, list, marks, error))
    return FALSE;
  for (guint i = 0; i < board->n_slots; i++)
    if (marks[i] && board->slots[i].soldered == NULL)
      lid_population_take (trial->population, i);
  return TRUE;
}

static gboolean
exchange (LidTrial *trial, const char *pair, GError **error)
{
  g_auto (GStrv) words = g_strsplit (pair, ",", -1);
  guint sockets[2], kept;

  for (guint i = 0; i < 2; i++)
    {
      guint64 number;

      if (g_strv_length (words) != 2
          || !g_ascii_string_to_unsigned (g_strstrip (words[i]), 10, 1, trial->n_sockets, &number,
                                          NULL))
        {
          g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                       _ ("two sockets of the board, by number, with a comma between them; not "
                          "“%s”"),
                       pair);
          return FALSE;
        }
      sockets[i] = (guint)number - 1;
    }
  kept = trial->processor_of[sockets[0]];
  trial->processor_of[sockets[0]] = trial->processor_of[sockets[1]];
  trial->processor_of[sockets[1]] = kept;
  return TRUE;
}

/* Where hands begin: at the last start, at the first with the fault, or at what the trace proposed;
 * before any, with what the job holds last. */
static LidTrial *
begin (const LidJob *job, const LidTrialNote *note, GError **error)
{
  const LidPopulation *population = job->as_left;
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
  if (job->trials->len > 0)
    return lid_trial_next (job->trials->pdata[job->trials->len - 1]);
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

/**
 * lid_trace_note:
 * @job: gets the trial
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
  for (guint i = 0; note->swaps != NULL && note->swaps[i] != NULL; i++)
    if (!swap (trial, job->board, note->swaps[i], error))
      return FALSE;
  if ((note->out != NULL && !take_out (trial, job->board, note->out, error))
      || (note->reseated != NULL
          && !lid_slot_list_mark (job->board, note->reseated, trial->reseated, error))
      || (note->exchange != NULL && !exchange (trial, note->exchange, error))
      || (note->at != NULL && !lid_slot_list_mark (job->board, note->at, trial->at, error)))
    return FALSE;
  for (guint i = 0; i < job->board->n_slots; i++)
    if (trial->at[i] && trial->population->slots[i].module == NULL)
      {
        g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                     _ ("slot %s was empty at that start, so no fault shows there"),
                     job->board->slots[i].id);
        return FALSE;
      }
  if (job->trials->len >= LID_JOB_MAX_TRIALS)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_TOO_LARGE,
                   _ ("a job holds %u starts, and this one has as many"), LID_JOB_MAX_TRIALS);
      return FALSE;
    }
  trial->eased |= note->eased;
  trial->outcome = note->outcome;
  g_ptr_array_add (job->trials, g_steal_pointer (&trial));
  lid_job_remember (job, "traced", "%s",
                    note->outcome == LID_OUTCOME_FAULT   ? _ ("a start with the fault")
                    : note->outcome == LID_OUTCOME_CLEAN ? _ ("a start without the fault")
                                                         : _ ("a start that tells nothing"));
  return TRUE;
}
