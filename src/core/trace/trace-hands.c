/* SPDX-License-Identifier: GPL-3.0-or-later */
/* trace-hands.c — what hands did before a start, as somebody tells it. */
#include "base/error.h"
#include "board/slot-list.h"
#include "trace/trace-private.h"

#include <glib/gi18n-lib.h>

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
  if (trial->population->slots[slots[0]].module == NULL
      && trial->population->slots[slots[1]].module == NULL)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("both slots are empty, so nothing changes places: “%s”"), pair);
      return FALSE;
    }
  lid_trial_swap (trial, slots[0], slots[1]);
  return TRUE;
}

/* The slots of a list, each of them filled. */
static gboolean
mark_filled (
    const LidTrial *trial, const LidBoard *board, const char *list, guint8 *marks, GError **error)
{
  if (!lid_slot_list_mark (board, list, marks, error))
    return FALSE;
  for (guint i = 0; i < board->n_slots; i++)
    if (marks[i] && trial->population->slots[i].module == NULL)
      {
        g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                     _ ("slot %s was empty already, so nothing was done there"),
                     board->slots[i].id);
        return FALSE;
      }
  return TRUE;
}

static gboolean
take_out (LidTrial *trial, const LidBoard *board, const char *list, GError **error)
{
  g_autofree guint8 *marks = g_new0 (guint8, board->n_slots + 1);

  if (!mark_filled (trial, board, list, marks, error))
    return FALSE;
  for (guint i = 0; i < board->n_slots; i++)
    if (marks[i] && board->slots[i].soldered == NULL)
      lid_population_take (trial->population, i);
  if (lid_population_n_modules (trial->population) > 0)
    return TRUE;
  g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                       _ ("no module is left in, and without one no machine starts"));
  return FALSE;
}

/* Another of the kind: what its label tells is the same, what is its own is not known. */
static gboolean
replace (LidTrial *trial, LidJob *job, const char *list, GError **error)
{
  g_autofree guint8 *marks = g_new0 (guint8, job->board->n_slots + 1);

  if (!mark_filled (trial, job->board, list, marks, error))
    return FALSE;
  for (guint i = 0; i < job->board->n_slots; i++)
    if (marks[i] && job->board->slots[i].soldered == NULL)
      {
        LidModule *other = lid_module_copy (trial->population->slots[i].module);

        lid_module_set_text (&other->serial, NULL);
        lid_module_set_text (&other->bin, NULL);
        lid_population_put (trial->population, i, lid_job_add_module (job, other));
      }
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
  if (sockets[0] == sockets[1])
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("a processor does not change places with itself: “%s”"), pair);
      return FALSE;
    }
  kept = trial->processor_of[sockets[0]];
  trial->processor_of[sockets[0]] = trial->processor_of[sockets[1]];
  trial->processor_of[sockets[1]] = kept;
  return TRUE;
}

/**
 * lid_trace_hands:
 * @trial: the machine as it was; becomes as it is then
 * @job: gets the modules that came in
 * @error: LID_ERROR_NOT_FOUND: no such slot; LID_ERROR_BAD_CALL: it cannot have been done
 */
gboolean
lid_trace_hands (LidTrial *trial, LidJob *job, const LidTrialNote *note, GError **error)
{
  for (guint i = 0; note->swaps != NULL && note->swaps[i] != NULL; i++)
    if (!swap (trial, job->board, note->swaps[i], error))
      return FALSE;
  return (note->out == NULL || take_out (trial, job->board, note->out, error))
         && (note->replaced == NULL || replace (trial, job, note->replaced, error))
         && (note->reseated == NULL
             || mark_filled (trial, job->board, note->reseated, trial->reseated, error))
         && (note->exchange == NULL || exchange (trial, note->exchange, error));
}
