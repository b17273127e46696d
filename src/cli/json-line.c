/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "json-line.h"

/**
 * lid_json_line_open:
 * @writer: a writer to set up
 * @out: gets the line
 * @source: the input's name, of any encoding; JSON is UTF-8, so what is none becomes U+FFFD
 * @reason: (nullable): why it could not be read; NULL where it could
 */
void
lid_json_line_open (LidJsonWriter *writer, GString *out, const char *source, const char *reason)
{
  g_autofree char *name = g_utf8_make_valid (source, -1);
  g_autofree char *why = reason != NULL ? g_utf8_make_valid (reason, -1) : NULL;

  lid_json_write_start (writer, out);
  lid_json_write_open (writer, NULL, '{');
  lid_json_write_int (writer, "format", 1);
  lid_json_write_text (writer, "source", name);
  lid_json_write_bool (writer, "ok", reason == NULL);
  lid_json_write_text (writer, "reason", why);
}

/**
 * lid_json_line_file:
 * @name: (nullable): member name
 * @path: a file name of any encoding, written as valid UTF-8
 */
void
lid_json_line_file (LidJsonWriter *writer, const char *name, const char *path)
{
  g_autofree char *valid = g_utf8_make_valid (path, -1);

  lid_json_write_text (writer, name, valid);
}

void
lid_json_line_close (LidJsonWriter *writer)
{
  lid_json_write_close (writer, '}');
  g_string_append_c (writer->out, '\n');
}

/**
 * lid_json_line_failure:
 * @out: gets one line that says why @source could not be read
 */
void
lid_json_line_failure (GString *out, const char *source, const char *reason)
{
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, source, reason);
  lid_json_line_close (&writer);
}
