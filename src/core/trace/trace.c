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

/* A clean start before the first with the fault tells nothing: the fault had not come yet. */
static gboolean
explains (const LidTraceCase *about, const LidSuspect *one, const LidSuspect *other)
{
  for (guint t = about->first; t < about->trials->len; t++)
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

/* What could be anything explains anything, so it is looked at where nothing else does, where
 * several slots showed it, and where nobody could tell the slot: a machine that never starts may
 * have no bad module at all. One clean start with nothing eased rules it out. */
static void
add_common (const LidTraceCase *about, LidSuspectKind kind, GArray *explanations)
{
  LidExplanation common = { .one = { kind, LID_NOWHERE, LID_NOWHERE, LID_NOWHERE, NULL } };

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

/* A start that names several slots says as much of two modules as of what they share. */
static gboolean
is_in_several (const LidTraceCase *about)
{
  for (guint t = about->first; t < about->trials->len; t++)
    {
      const LidTrial *trial = about->trials->pdata[t];
      guint n = 0;

      for (guint i = 0; trial->outcome == LID_OUTCOME_FAULT && i < about->board->n_slots; i++)
        n += trial->at[i];
      if (n > 1)
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_untold (const LidTraceCase *about)
{
  for (guint t = about->first; t < about->trials->len; t++)
    {
      const LidTrial *trial = about->trials->pdata[t];

      if (trial->outcome == LID_OUTCOME_FAULT && !lid_trial_is_told_where (trial))
        return TRUE;
    }
  return FALSE;
}

static void
add_all (const LidTraceCase *about, GArray *explanations)
{
  g_autoptr (GArray) suspects = lid_suspects_list (about);
  gboolean several = is_in_several (about), untold = is_untold (about), none;

  add_single (about, suspects, explanations);
  none = explanations->len == 0;
  if (none || several)
    add_pairs (about, suspects, explanations);
  if (none || several || untold)
    add_common (about, LID_SUSPECT_COMMON, explanations);
  if (none || untold)
    add_common (about, LID_SUSPECT_MACHINE, explanations);
}

/* That the slots named fit no one thing may as well be one of them named wrongly. */
static gboolean
is_doubtful (const LidTraceCase *about, const GArray *explanations)
{
  for (guint i = 0; i < explanations->len; i++)
    {
      LidSuspectKind kind = g_array_index (explanations, LidExplanation, i).one.kind;

      if (kind != LID_SUSPECT_COMMON && kind != LID_SUSPECT_MACHINE)
        return FALSE;
    }
  return explanations->len > 0 && !is_untold (about);
}

/**
 * lid_trace_new:
 * @job: with its trials
 *
 * One thing at fault is looked for first; two only where no one thing explains what was noted or
 * several slots showed it at once, and something common to all beside them (population.md 7.3, R3);
 * that too, as long as no start was clean, where nobody could tell the slot.
 *
 * Returns: (transfer full): what is known
 */
LidTrace *
lid_trace_new (const LidJob *job)
{
  LidTrace *trace = g_new0 (LidTrace, 1);
  LidTraceCase about;
  gboolean any;

  trace->explanations = g_array_new (FALSE, TRUE, sizeof (LidExplanation));
  trace->texts = g_ptr_array_new_with_free_func (g_free);
  any = lid_suspects_case (job->board, job->trials, &about);
  trace->n_trials = job->trials->len - about.from;
  if (!any)
    return trace;
  add_all (&about, trace->explanations);
  trace->untold = is_untold (&about);
  trace->doubtful = is_doubtful (&about, trace->explanations);
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
    trace->answer = lid_trace_words_answer (job, trace->explanations, trace->doubtful);
  return trace;
}
