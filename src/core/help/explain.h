/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/finding.h"
#include "help/cautions.h"
#include "help/glossary.h"

/* What is said to a person who asks "why?" or "what does that mean?": the same in the window, on
 * the command line and in the catalogue of rules. Texts only. */
typedef struct
{
  const char *heading; /* in the reader's language; nullable: none */
  char *text;
} LidExplainPart;

typedef struct
{
  char *title;
  GArray *parts; /* LidExplainPart */
} LidExplanation;

LidExplanation *lid_explain_rule (const LidRule *rule);
LidExplanation *lid_explain_finding (const LidFinding *finding);
LidExplanation *lid_explain_word (const LidWord *word);
LidExplanation *lid_explain_bandwidth (void);
LidExplanation *lid_explain_caution (const LidCaution *caution);
LidExplanation *lid_explain_power (const LidBoard *board,
                                   const LidPopulation *before,
                                   const LidPopulation *population);
LidExplanation *lid_explain_model (const LidBoard *board);
char *lid_explain_grades (const LidRule *rule);
char *lid_explain_to_text (const LidExplanation *explanation);
void lid_explain_free (LidExplanation *explanation);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidExplanation, lid_explain_free)
