/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "failure.h"

#include "json-line.h"
#include "output.h"

/**
 * lid_failure:
 * @source: the input of which nothing can be told
 * @reason: why, one sentence
 * @nulls: (nullable): NULL-terminated: what the line of --json holds where something can be told
 *
 * Says so: to standard error, or as a line of --json.
 *
 * Returns: @status
 */
LidExit
lid_failure (
    const char *source, const char *reason, const char *const *nulls, gboolean json, LidExit status)
{
  g_autoptr (GString) line = g_string_new (NULL);
  LidJsonWriter writer;

  if (!json)
    {
      lid_complain ("%s", reason);
      return status;
    }
  lid_json_line_open (&writer, line, source, reason);
  for (; nulls != NULL && *nulls != NULL; nulls++)
    lid_json_write_null (&writer, *nulls);
  lid_json_line_close (&writer);
  lid_output (line->str, (gssize)line->len);
  return status;
}
