/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* Text in aligned columns, widths taken from what is in them. */
typedef struct
{
  guint n_columns;
  GPtrArray *cells;
} LidColumns;

void lid_columns_start (LidColumns *columns, guint n_columns);
void lid_columns_add (LidColumns *columns, const char *text);
void lid_columns_finish (LidColumns *columns, GString *out, const char *indent);
