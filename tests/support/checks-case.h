/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"
#include "checks/rule.h"
#include "figures-case.h"

/* One case of the checker. tests/cases/checks/README says how it is written. */
typedef struct
{
  FiguresCase *figures; /* board and population */
  LidPopulation *population;
  const LidPopulation *as_found; /* nullable */
} ChecksCase;

GPtrArray *checks_case_paths (const char *folder);
GPtrArray *checks_case_files (void);
JsonNode *checks_case_load (const char *path);
ChecksCase *checks_case_new (JsonObject *file, JsonObject *one);
void checks_case_free (ChecksCase *c);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (ChecksCase, checks_case_free)
LidAssessment *checks_case_assess (const ChecksCase *c, const LidRule *without);
void checks_case_each (void (*visit) (JsonObject *file, JsonObject *one, const LidRule *rule));
char *checks_case_lines (JsonObject *one, const char *member);
char *checks_case_asked (const ChecksCase *c, const LidAssessment *assessment);
char *checks_case_slots (const LidBoard *board, const guint *slots, guint n_slots);
void checks_case_expect_machine (const LidAssessment *assessment, JsonObject *one);
