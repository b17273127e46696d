/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/job-model.h"

#include "job/recovery.h"

#include <gio/gio.h>

/* What survives a kill: a short time after an edit the job is written to its recovery file, by a
 * thread of its own, so that no frame waits for a disk. What is saved, or undone back to what is
 * saved, has none. Emits "failed" with a sentence when nothing can be kept, once. */
#define LID_TYPE_JOB_KEEPER (lid_job_keeper_get_type ())
G_DECLARE_FINAL_TYPE (LidJobKeeper, lid_job_keeper, LID, JOB_KEEPER, GObject)

LidJobKeeper *lid_job_keeper_new (LidJobModel *model, LidRecovery *recovery);
void lid_job_keeper_set_path (LidJobKeeper *self, const char *path);
void lid_job_keeper_write_now (LidJobKeeper *self);
void lid_job_keeper_forget (LidJobKeeper *self);
void lid_job_keeper_close (LidJobKeeper *self);
