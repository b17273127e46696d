/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "trace/trace-note.h"

/* Shared by the files of this folder only. */
LidNextTrial *lid_trace_find_next (const LidTraceCase *about, const GArray *left);
LidNextTrial *lid_trace_put_back (const LidTraceCase *about);
void lid_trace_next_free (LidNextTrial *next);
char *lid_trace_words_suspect (const LidJob *job, const LidSuspect *suspect);
char *lid_trace_words_explanation (const LidJob *job, const LidExplanation *explanation);
char *lid_trace_words_next (const LidJob *job, const LidNextTrial *next);
char *lid_trace_words_answer (const LidJob *job, const GArray *explanations, gboolean doubtful);
char *lid_trace_words_remedy (const LidJob *job, const LidSuspect *suspect);
gboolean lid_trace_hands (LidTrial *trial, LidJob *job, const LidTrialNote *note, GError **error);
