/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "trace/trace.h"

/* What was done before a start, and what it showed, as somebody tells it. */
typedef struct
{
  gboolean did_next;        /* what the trace proposed */
  gboolean back;            /* all as at the first start with the fault */
  gboolean anew;            /* another search begins with it */
  const char *const *swaps; /* nullable, "A1,B1" each */
  const char *out;          /* nullable, "A1,B1": taken out */
  const char *reseated;     /* nullable, likewise */
  const char *replaced;     /* nullable, likewise: another module of the kind went in */
  const char *exchange;     /* nullable, "1,2": sockets whose processors changed places */
  gboolean eased;
  LidOutcome outcome;
  const char *at; /* nullable, "A1": where the fault was reported */
} LidTrialNote;

gboolean lid_trace_note (LidJob *job, const LidTrialNote *note, GError **error);
gboolean lid_trace_forget_last (LidJob *job, GError **error);
gboolean lid_trace_end (LidJob *job, GError **error);
