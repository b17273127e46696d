/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "changeover/changeover.h"
#include "checks/assessment.h"
#include "drawing/sheet-flow.h"

/* What a sheet is made from, and the words both sheets share. */
typedef struct
{
  const LidJob *job;
  LidOf of; /* which population is shown */
  const LidPopulation *population;
  const LidAssessment *assessment; /* nullable */
  LidChangeover *changeover;       /* from as found, or from the stage before */
  const LidChanges *changes;       /* its */
  guint stage;                     /* of a plan in stages, from 1; 0: the whole plan */
  guint n_modules;                 /* in slots, soldered ones too */
  gint64 total_mib;                /* persistent left out */
  gboolean total_told;             /* every module's size is known */
} LidSheetSource;

typedef struct
{
  const char *total; /* "96 GB" */
  const char *right; /* "6 modules, runs at 2933 MT/s" */
  const char *left;  /* "Bench sheet · memory as planned" */
  const char *who;   /* "owner · asset 0417 · job 118" */
  const char *stamp; /* "planned, not yet proved", nullable */
} LidSheetHead;

const char *lid_sheet_words_title (LidSheetFor what);
void lid_sheet_words_head (LidSheet *sheet, const LidSheetSource *source, LidSheetHead *head);
void lid_sheet_words_modules (LidFlow *flow, const LidSheetSource *source);
void lid_sheet_words_findings (LidFlow *flow,
                               const LidSheetSource *source,
                               LidGrade least,
                               LidGrade most);
char *lid_sheet_words_filled (const LidSheetSource *source, guint most);
char *lid_sheet_words_firmware (const LidSheetSource *source);
char *lid_sheet_words_date (const LidJob *job);
char *lid_sheet_words_mode (const LidSheetSource *source);
const char *lid_sheet_words_limit (LidCap cap);

void lid_sheet_bench_fill (LidFlow *flow, const LidSheetSource *source);
void lid_sheet_lid_fill (LidFlow *flow, const LidSheetSource *source);
