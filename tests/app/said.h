/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"

/* Texts of a window under the pseudo language of pseudo.py. */
void said_allow_job (const LidJob *job);
void said_allow (const char *data);
void said_clear (void);
char *said_left (const char *text);
