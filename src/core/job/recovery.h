/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* Recovery files: what of a job was not saved yet, kept beside nothing of the user's, in a folder
 * of our own. While a program works on a job it holds a lock on the job's recovery file; the system
 * lets go of the lock however the program ends. So a file nobody holds was left behind. */
typedef struct _LidRecovery LidRecovery;

/* A file that was left behind. */
typedef struct
{
  char *file;  /* the recovery file */
  char *path;  /* the job's own file; NULL: it never had one */
  char *title; /* the machine as the owner calls it, nullable */
  gint64 when; /* seconds since 1970, UTC */
} LidRecovered;

char *lid_recovery_default_folder (void);
LidRecovery *lid_recovery_new (const char *folder, GError **error);
void lid_recovery_free (LidRecovery *recovery);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidRecovery, lid_recovery_free)
gboolean lid_recovery_write (LidRecovery *recovery,
                             const char *path,
                             const char *title,
                             const char *job_text,
                             GError **error);
gboolean lid_recovery_remove (LidRecovery *recovery, GError **error);
GPtrArray *lid_recovery_list (const char *folder);
LidRecovery *lid_recovery_take_up (const char *file, char **path, char **job_text, GError **error);
gboolean lid_recovery_discard (const char *file, GError **error);
void lid_recovery_recovered_free (LidRecovered *recovered);
