/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/json-read.h"
#include "job/job.h"

/* The member "trials" of a job document. */
gboolean lid_job_trials_read (LidJob *job, const LidJsonAt *at, GError **error);
JsonArray *lid_job_trials_write (const LidJob *job);
