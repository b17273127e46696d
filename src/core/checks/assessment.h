/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/finding.h"
#include "figures/figures.h"

/* The one call everything above uses: a population in; findings and figures out. Definitions:
 * product.md 6 and 7. */

typedef struct
{
  const LidBoard *board;
  const LidPopulation *population;
  /* The population read from the running machine, NULL when there is none. Evidence beats rules:
   * when it equals @population, what would stop it is unsure instead. */
  const LidPopulation *as_found;
} LidQuestion;

typedef struct
{
  GPtrArray *findings; /* LidFinding, worst first, then in the order of rules.c */
  guint8 *unusable;    /* per slot: 1 when a finding stops it */
  LidFigures figures;
  LidRoom room;
  struct _LidRemedies *remedies; /* nullable; for lid_finding_remedy() */
} LidAssessment;

LidAssessment *lid_assessment_new (const LidQuestion *question);
LidAssessment *lid_assessment_new_at_hand (const LidQuestion *question, const GPtrArray *modules);
LidAssessment *lid_assessment_new_plain (const LidQuestion *question);
void lid_assessment_free (LidAssessment *assessment);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidAssessment, lid_assessment_free)
LidGrade lid_assessment_worst (const LidAssessment *assessment);
