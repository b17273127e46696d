/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"

/* How to judge, for those who judge often and for tests. */
typedef enum
{
  LID_REMEDIES_LATER, /* when lid_finding_remedy() asks for the first */
  LID_REMEDIES_NEVER,
  LID_REMEDIES_NOW,
} LidRemediesWhen;

typedef struct
{
  LidRemediesWhen remedies;
  gboolean only_planned;    /* as if the population were not the one found running */
  const GPtrArray *at_hand; /* nullable: LidModule, what remedies may fit from the tray */
  const guint64 *may_stop;  /* nullable: bits: index of the rules that may stop something */
  const LidRule *without;   /* nullable: a rule taken out of the table; only tests do */
} LidAssessmentHow;

LidAssessment *lid_assessment_new_how (const LidQuestion *question, LidAssessmentHow how);
LidAssessment *lid_assessment_new_without (const LidQuestion *question, const LidRule *without);
