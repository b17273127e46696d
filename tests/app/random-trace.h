/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

void random_trace_note (const char *format, ...) G_GNUC_PRINTF (1, 2);
void random_trace_watch (void);
void random_trace_free (void);
