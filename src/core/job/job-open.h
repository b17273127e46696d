/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "facts/parts.h"
#include "job/job.h"

/* What a name on a command line or a dropped file turned out to be. */
typedef struct
{
  LidJob *job;             /* never NULL once opened */
  LidInventory *inventory; /* NULL when it was a job document */
  LidMatch *match;         /* NULL likewise */
} LidOpened;

gboolean lid_job_open (const char *source,
                       const LidBoard *board,
                       const LidParts *parts,
                       LidOpened *opened,
                       GError **error);
gboolean lid_job_open_inventory (const char *source,
                                 const LidBoard *board,
                                 const LidParts *parts,
                                 LidOpened *opened,
                                 GError **error);
gboolean lid_job_open_bytes (const void *data,
                             gsize size,
                             const char *source,
                             const LidBoard *board,
                             const LidParts *parts,
                             LidOpened *opened,
                             GError **error);
LidJob *lid_job_open_offered (const LidJob *job, const LidOpened *opened, GError **error);
void lid_job_opened_clear (LidOpened *opened);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (LidOpened, lid_job_opened_clear)
