/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "trace/trace.h"

void lid_trace_report_json (GString *out,
                            const char *source,
                            const LidBoard *board,
                            const LidTrace *trace);
void
lid_trace_report_text (GString *out, const char *source, const char *job, const LidTrace *trace);
