/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "trace/trace.h"

#include "trace/trace-private.h"

#include <glib/gi18n-lib.h>

void
lid_trace_free (LidTrace *trace)
{
  if (trace == NULL)
    return;
  g_array_unref (trace->explanations);
  g_ptr_array_unref (trace->texts);
  lid_trace_next_free (trace->next);
  g_free (trace->answer);
  g_free (trace);
}

static gboolean
explains (const LidTraceCase *about, const LidSuspect *one, const LidSuspect *other)
{
  for (guint t = 0; t < about->trials->len; t++)
    if (!lid_suspects_agree (about, one, other, about->trials->pdata[t]))
      return FALSE;
  return TRUE;
}

static void
add_single (const LidTraceCase *about, const GArray *suspects, GArray *explanations)
{
  for (guint i = 0; i < suspects->len; i++)
    {
      LidExplanation one = { .one = g_array_index (suspects, LidSuspect, i) };

      if (explains (about, &one.one, NULL))
        g_array_append_val (explanations, one);
    }
}

/* A contact and a margin are cured by what any trial does, so two of them are not told apart from
 * one: only what lasts comes in pairs. */
static gboolean
lasts (const LidSuspect *suspect)
{
  return suspect->kind != LID_SUSPECT_SEATING && suspect->kind != LID_SUSPECT_PAIRING;
}

/* Two of which one would do are one. */
static void
add_pairs (const LidTraceCase *about, const GArray *suspects, GArray *explanations)
{
  for (guint i = 0; i < suspects->len; i++)
    for (guint k = i + 1; k < suspects->len; k++)
      {
        LidExplanation both = { g_array_index (suspects, LidSuspect, i), TRUE,
                                g_array_index (suspects, LidSuspect, k) };

        if (lasts (&both.one) && lasts (&both.other) && !explains (about, &both.one, NULL)
            && !explains (about, &both.other, NULL) && explains (about, &both.one, &both.other))
          g_array_append_val (explanations, both);
      }
}

/* What could be anything explains anything, so it is looked at where nothing else does. */
static void
add_common (const LidTraceCase *about, GArray *explanations)
{
  LidExplanation common
      = { .one = { LID_SUSPECT_COMMON, LID_NOWHERE, LID_NOWHERE, LID_NOWHERE, NULL } };

  if (explains (about, &common.one, NULL))
    g_array_append_val (explanations, common);
}

/* A margin shows by coming back: a start that was clean with the module elsewhere may have been
 * luck (population.md 7.3, R4: repeat, swapped back). */
static gboolean
must_come_back (const LidTraceCase *about, const GArray *explanations)
{
  gboolean clean = FALSE, again = FALSE;

  if (explanations->len != 1
      || g_array_index (explanations, LidExplanation, 0).one.kind != LID_SUSPECT_PAIRING)
    return FALSE;
  for (guint t = about->first; t < about->trials->len; t++)
    {
      const LidTrial *trial = about->trials->pdata[t];

      clean |= trial->outcome == LID_OUTCOME_CLEAN;
      again |= clean && trial->outcome == LID_OUTCOME_FAULT;
    }
  return clean && !again;
}

/* One start that names several slots says as much of two modules as of what they share. */
static gboolean
is_in_several (const LidTraceCase *about)
{
  const LidTrial *began = about->trials->pdata[about->first];
  guint n = 0;

  for (guint i = 0; i < about->board->n_slots; i++)
    n += began->at[i];
  return n > 1;
}

/**
 * lid_trace_new:
 * @job: with its trials
 *
 * One thing at fault is looked for first; two only where no one thing explains what was noted or
 * several slots showed it at once, and something common to all beside them (population.md 7.3, R3).
 *
 * Returns: (transfer full): what is known
 */
LidTrace *
lid_trace_new (const LidJob *job)
{
  LidTrace *trace = g_new0 (LidTrace, 1);
  g_autoptr (GArray) suspects = NULL;
  LidTraceCase about;

  trace->trials = job->trials;
  trace->explanations = g_array_new (FALSE, TRUE, sizeof (LidExplanation));
  trace->texts = g_ptr_array_new_with_free_func (g_free);
  if (!lid_suspects_case (job->board, job->trials, &about))
    return trace;
  suspects = lid_suspects_list (&about);
  add_single (&about, suspects, trace->explanations);
  if (trace->explanations->len == 0 || is_in_several (&about))
    {
      add_pairs (&about, suspects, trace->explanations);
      add_common (&about, trace->explanations);
    }
  for (guint i = 0; i < trace->explanations->len; i++)
    g_ptr_array_add (
        trace->texts,
        lid_trace_words_explanation (job, &g_array_index (trace->explanations, LidExplanation, i)));
  trace->contradicted = trace->explanations->len == 0;
  if (trace->contradicted)
    return trace;
  if (trace->explanations->len > 1)
    trace->next = lid_trace_find_next (&about, trace->explanations);
  else if (must_come_back (&about, trace->explanations))
    trace->next = lid_trace_put_back (&about);
  if (trace->next != NULL)
    trace->next->text = lid_trace_words_next (job, trace->next);
  else
    trace->answer = lid_trace_words_answer (job, trace->explanations);
  return trace;
}
