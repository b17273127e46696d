/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "trace/trace.h"

/* What was done before a start, and what it showed, as somebody tells it. */
typedef struct
{
  gboolean did_next;        /* what the trace proposed */
  gboolean back;            /* all as at the first start with the fault */
  const char *const *swaps; /* nullable, "A1,B1" each */
  const char *out;          /* nullable, "A1,B1": taken out */
  const char *reseated;     /* nullable, likewise */
  const char *exchange;     /* nullable, "1,2": sockets whose processors changed places */
  gboolean eased;
  LidOutcome outcome;
  const char *at; /* nullable, "A1": where the fault was reported */
} LidTrialNote;

gboolean lid_trace_note (LidJob *job, const LidTrialNote *note, GError **error);
