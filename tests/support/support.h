/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

char *support_data (const char *name);
char *support_shared (const char *name);
GPtrArray *support_read_csv (const char *path);
char *support_read_file (const char *path, gsize *size);
const char *support_cell (const GPtrArray *rows, guint row, const char *column);
