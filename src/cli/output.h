/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"

/* The only places of the command line that write. */
void lid_output (const char *text, gssize size);
gboolean lid_output_job (const LidJob *job, const char *path, GError **error);
void lid_output_line (const char *format, ...) G_GNUC_PRINTF (1, 2);
void lid_complain (const char *format, ...) G_GNUC_PRINTF (1, 2);
void lid_complain_raw (const char *text);
gboolean lid_output_flush (void);
char *lid_output_quote (const char *path);
