/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/json-read.h"
#include "job/job.h"

/* Populations as a job file has them; shared by the two halves of job-file.c. */
LidPopulation *
lid_job_parts_read_population (const LidJob *job, const LidJsonAt *at, GError **error);
JsonNode *lid_job_parts_write_population (const LidJob *job, const LidPopulation *population);
