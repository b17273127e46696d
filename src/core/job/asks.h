/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"
#include "job/edits.h"

/* What has to be asked of a person: facts that rules need and nobody told, once for each part
 * number, not once for each slot (product.md 3). The answer is the module's label. */
typedef struct
{
  char *module;  /* id of one module of the part, to be told with lid_edits_tell_label() */
  char *part;    /* nullable: a module without a part number is asked about alone */
  GArray *slots; /* guint */
  guint32 facts; /* 1 << LidFact */
} LidAsk;

GPtrArray *lid_asks_list (const LidAssessment *assessment, const LidPopulation *population);
char *lid_asks_facts (const LidAsk *ask);
char *lid_asks_slots (const LidAsk *ask, const LidBoard *board);
