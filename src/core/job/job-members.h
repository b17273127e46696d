/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/json-read.h"
#include "job/job.h"

/* The members of a job document but for the board: the reading and writing half of job-file.c. */
gboolean lid_job_members_read (LidJob *job, const LidJsonAt *at, GError **error);
void lid_job_members_write (const LidJob *job, JsonObject *object);
