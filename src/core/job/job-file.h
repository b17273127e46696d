/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"

#define LID_JOB_FORMAT 1

LidJob *lid_job_file_parse (const char *text, gsize size, GError **error);
LidJob *lid_job_file_load (const char *path, GError **error);
char *lid_job_file_to_text (const LidJob *job);
gboolean lid_job_file_save (const LidJob *job, const char *path, GError **error);
gboolean lid_job_file_sniff (const char *text, gsize size);
