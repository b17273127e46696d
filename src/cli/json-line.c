/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "json-line.h"

/**
 * lid_json_line_open:
 * @writer: a writer to set up
 * @out: gets the line
 * @source: the input's name
 * @reason: (nullable): why it could not be read; NULL where it could
 */
void
lid_json_line_open (LidJsonWriter *writer, GString *out, const char *source, const char *reason)
{
  lid_json_write_start (writer, out);
  lid_json_write_open (writer, NULL, '{');
  lid_json_write_int (writer, "format", 1);
  lid_json_write_text (writer, "source", source);
  lid_json_write_bool (writer, "ok", reason == NULL);
  lid_json_write_text (writer, "reason", reason);
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
