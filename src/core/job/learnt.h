/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "facts/parts.h"
#include "job/job.h"

/* Answers given in this job, and the parts memory that follows them: an answer undone is forgotten
 * again, one redone is remembered again. */
typedef struct _LidLearnt LidLearnt;

LidLearnt *lid_learnt_new (LidParts *parts);
void lid_learnt_free (LidLearnt *learnt);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidLearnt, lid_learnt_free)
gboolean lid_learnt_add (LidLearnt *learnt, const LidModule *module, GError **error);
gboolean lid_learnt_follow (LidLearnt *learnt, const LidJob *job, GError **error);
