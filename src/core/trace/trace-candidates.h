/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "trace/trace-private.h"

/* What the next start is looked for among; of this folder only. */
typedef struct
{
  const LidTraceCase *about;
  const GArray *left;    /* LidExplanation */
  const LidTrial *now;   /* the last start */
  const LidTrial *began; /* the first with the fault */
  GPtrArray *candidates; /* LidNextTrial */
} LidTraceSearch;

void lid_trace_candidates_find (LidTraceSearch *search);
void lid_trace_candidates_find_more (LidTraceSearch *search);
guint lid_trace_worst_left (const LidTraceSearch *search, const LidTrial *trial, gboolean modules);
