/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/shelf.h"
#include "job/job.h"
#include "planner/plan-ask.h"

/* One option as a card shows it, its words made by the planner: may be looked at while the planner
 * goes on. */
typedef struct
{
  LidBoard *board; /* this and the next two: of the copy that was planned for */
  LidPopulation *population;
  LidPopulation *before; /* as found; nullable */
  char *picks;           /* why it is among the six, in few words; empty: found on the way */
  char *cost;
  char *hands;
  char *why;  /* nullable; one sentence */
  int option; /* into the plan's options; LID_NOWHERE: found on the way */
} LidPlanShown;

/* Works a plan out in the background, on a copy of the job: the window stays at hand, and what is
 * edited meanwhile is not what is planned. Emits "changed" whenever the calls below answer
 * something else. A new start, and the end of the window, stops what runs. */
#define LID_TYPE_PLAN_RUNNER (lid_plan_runner_get_type ())
G_DECLARE_FINAL_TYPE (LidPlanRunner, lid_plan_runner, LID, PLAN_RUNNER, GObject)

LidPlanRunner *lid_plan_runner_new (void);
void lid_plan_runner_start (LidPlanRunner *self,
                            const LidJob *job,
                            LidShelf *shelf,
                            const LidWish *wish);
void lid_plan_runner_stop (LidPlanRunner *self);
void lid_plan_runner_forget (LidPlanRunner *self);
gboolean lid_plan_runner_is_running (LidPlanRunner *self);
double lid_plan_runner_get_progress (LidPlanRunner *self);
const GPtrArray *lid_plan_runner_get_shown (LidPlanRunner *self);
const LidPlan *lid_plan_runner_get_plan (LidPlanRunner *self);
const LidPlanAsk *lid_plan_runner_get_ask (LidPlanRunner *self);
const char *lid_plan_runner_get_complaint (LidPlanRunner *self);
