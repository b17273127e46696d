/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/bytes.h"

/* One line after another of a pasted text, without what mail programs put around it. */
typedef struct
{
  LidBytes rest;
  guint number;      /* of the line given last, from 1 */
  gboolean unclosed; /* that line had no line end: it may be cut */
} LidReportLines;

char *lid_report_text_decode (LidBytes bytes, LidBytes *text);
void lid_report_text_lines (LidReportLines *lines, LidBytes text);
gboolean lid_report_text_next (LidReportLines *lines, LidBytes *line);
gboolean lid_report_text_holds (LidBytes text, const char *mark);
gboolean lid_report_text_starts (LidBytes line, const char *start);
gboolean lid_report_text_ends (LidBytes line, const char *end);
