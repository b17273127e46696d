/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"
#include "job/job.h"

/* A plan in two visits, when part of the order is missing: what can be fitted tonight, and the rest
 * later. */

LidPopulation *lid_stage_split (const LidBoard *board,
                                const LidPopulation *as_found,
                                const LidPopulation *to,
                                GHashTable *missing,
                                GError **error);

/* stages.c: the same for a job */
gboolean lid_stages_split_job (LidJob *job, GHashTable *missing, GError **error);
LidJob *lid_stages_copy_job (const LidJob *job, GError **error);
void lid_stages_keep_one (LidJob *job, guint stage);
const LidPopulation *lid_stages_before (const LidJob *job, guint stage);
gboolean lid_stages_every_way (const LidJob *job);
const char *lid_stages_not_every_way (void);
char *lid_stages_describe (const LidJob *job, guint stage, const LidAssessment *assessment);
