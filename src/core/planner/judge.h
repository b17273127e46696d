/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/front.h"

/* What turns a filling of the slots into a judged population. */
typedef struct
{
  const LidPlanQuestion *question;
  const LidWish *wish;
  const LidCandidates *candidates;
  const LidPopulation *settings; /* processors, firmware, mode, setup */
  LidPopulation *base;           /* owned: what stays, every other slot empty */
  gboolean has_speed;            /* the board tells enough to compare bandwidth */
  gint64 least_mib;              /* usable capacity the wish asks for */
  guint64 judged;                /* how many times the checker was asked */
} LidPlanJudge;

/* What the checker says of a filling, as far as the search needs it. */
typedef enum
{
  LID_PLAN_LEGAL,
  LID_PLAN_REFUSED, /* a finding speaks against it; of another arrangement
                       perhaps not */
  LID_PLAN_SHORT,   /* it is not what the wish asks for, however it is arranged */
  LID_PLAN_NEVER    /* something stops it that no module added ever clears */
} LidPlanVerdict;

void lid_plan_judge_init (LidPlanJudge *judge,
                          const LidPlanQuestion *question,
                          const LidWish *wish,
                          const LidCandidates *candidates);
void lid_plan_judge_clear (LidPlanJudge *judge);
LidPopulation *lid_plan_judge_build (const LidPlanJudge *judge, const int *kinds);
LidPlanVerdict lid_plan_judge_ask (LidPlanJudge *judge, const int *kinds, LidPlanEntry *entry);
LidAssessment *lid_plan_judge_part (LidPlanJudge *judge, const int *kinds);
LidRate lid_plan_judge_rate (LidPlanJudge *judge, const int *kinds);
gboolean lid_plan_judge_is_lasting (const LidFinding *finding);
guint lid_plan_judge_hands (const LidPlanJudge *judge, const guint *used, guint staying);
LidPlanEntry *lid_plan_judge_as_found (LidPlanJudge *judge);
