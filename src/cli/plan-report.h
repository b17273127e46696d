/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/plan-ask.h"

/* A plan as told: which of its options are shown, and what they are about. */
typedef struct
{
  const char *source;
  const LidJob *job;
  const LidPlanAsk *ask;
  const LidWish *wish;
  const LidPlan *plan;
  const GPtrArray *options; /* LidPlanOption: the six, or the whole front */
} LidPlanReport;

void lid_plan_report_json (GString *out, const LidPlanReport *report);
void lid_plan_report_text (GString *out, const LidPlanReport *report);

/* plan-report-json.c and plan-report-text.c share this. */
gboolean lid_plan_report_goes_to_stock (const LidPlanReport *report, const LidModule *module);
