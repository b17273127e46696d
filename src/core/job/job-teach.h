/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"

/* Teaching a job the channels its slot names do not tell: product.md 3 and 11 (boards --teach). */
GPtrArray *lid_job_teach_offers (const LidJob *job);
LidJob *lid_job_teach (const LidJob *job, const char *pattern, GError **error);
char *lid_job_teach_refusal (const LidJob *job);
char *lid_job_teach_words (const char *pattern);
