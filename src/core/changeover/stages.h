/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"

/* A plan in two visits, when part of the order is missing: what can be fitted tonight, and the rest
 * later. */

LidPopulation *lid_stage_split (const LidBoard *board,
                                const LidPopulation *as_found,
                                const LidPopulation *to,
                                GHashTable *missing,
                                GError **error);

/* stages.c: the same for a job */
GHashTable *lid_stages_to_buy (const LidJob *job);
gboolean lid_stages_split_job (LidJob *job, GHashTable *missing, GError **error);
const LidPopulation *lid_stages_before (const LidJob *job, guint stage);
