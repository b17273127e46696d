/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* A writer of one JSON text into a GString, for output that must be fast and keep its key order.
 * The caller opens and closes; commas are the writer's. A NULL name means "inside an array". */
typedef struct
{
  GString *out;
  gboolean comma;
} LidJsonWriter;

void lid_json_write_start (LidJsonWriter *writer, GString *out);
void lid_json_write_open (LidJsonWriter *writer, const char *name, char bracket);
void lid_json_write_close (LidJsonWriter *writer, char bracket);
void lid_json_write_text (LidJsonWriter *writer, const char *name, const char *text);
void lid_json_write_int (LidJsonWriter *writer, const char *name, gint64 value);
void
lid_json_write_int_or_null (LidJsonWriter *writer, const char *name, gint64 value, gboolean known);
void lid_json_write_bool (LidJsonWriter *writer, const char *name, gboolean value);
void lid_json_write_null (LidJsonWriter *writer, const char *name);
void lid_json_write_raw (LidJsonWriter *writer, const char *name, const char *json);
