/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json-write.h"

static void
append_quoted (GString *out, const char *text)
{
  const char *start = text;

  g_string_append_c (out, '"');
  for (; *text != 0; text++)
    {
      guchar c = (guchar)*text;

      if (c >= 0x20 && c != '"' && c != '\\')
        continue;
      g_string_append_len (out, start, text - start);
      if (c == '"' || c == '\\')
        {
          g_string_append_c (out, '\\');
          g_string_append_c (out, (char)c);
        }
      else
        g_string_append_printf (out, "\\u%04x", c);
      start = text + 1;
    }
  g_string_append_len (out, start, text - start);
  g_string_append_c (out, '"');
}

static void
name_it (LidJsonWriter *writer, const char *name)
{
  if (writer->comma)
    g_string_append_c (writer->out, ',');
  writer->comma = TRUE;
  if (name != NULL)
    {
      append_quoted (writer->out, name);
      g_string_append_c (writer->out, ':');
    }
}

/**
 * lid_json_write_start:
 * @writer: a writer to set up
 * @out: what it appends to; borrowed
 */
void
lid_json_write_start (LidJsonWriter *writer, GString *out)
{
  writer->out = out;
  writer->comma = FALSE;
}

/**
 * lid_json_write_open:
 * @writer: a writer
 * @name: (nullable): member name
 * @bracket: '{' or '['
 */
void
lid_json_write_open (LidJsonWriter *writer, const char *name, char bracket)
{
  name_it (writer, name);
  g_string_append_c (writer->out, bracket);
  writer->comma = FALSE;
}

/**
 * lid_json_write_close:
 * @writer: a writer
 * @bracket: '}' or ']'
 */
void
lid_json_write_close (LidJsonWriter *writer, char bracket)
{
  g_string_append_c (writer->out, bracket);
  writer->comma = TRUE;
}

/**
 * lid_json_write_text:
 * @writer: a writer
 * @name: (nullable): member name
 * @text: (nullable): valid UTF-8; NULL writes null
 */
void
lid_json_write_text (LidJsonWriter *writer, const char *name, const char *text)
{
  name_it (writer, name);
  if (text == NULL)
    g_string_append (writer->out, "null");
  else
    append_quoted (writer->out, text);
}

void
lid_json_write_int (LidJsonWriter *writer, const char *name, gint64 value)
{
  char digits[24];
  guint at = sizeof digits;
  guint64 rest = value < 0 ? 0 - (guint64)value : (guint64)value;

  name_it (writer, name);
  do
    digits[--at] = (char)('0' + rest % 10);
  while ((rest /= 10) != 0);
  if (value < 0)
    digits[--at] = '-';
  g_string_append_len (writer->out, digits + at, sizeof digits - at);
}

/**
 * lid_json_write_int_or_null:
 *
 * Writes null wherever a number is not known: never 0 for "unknown".
 */
void
lid_json_write_int_or_null (LidJsonWriter *writer, const char *name, gint64 value, gboolean known)
{
  if (known)
    lid_json_write_int (writer, name, value);
  else
    lid_json_write_null (writer, name);
}

void
lid_json_write_bool (LidJsonWriter *writer, const char *name, gboolean value)
{
  name_it (writer, name);
  g_string_append (writer->out, value ? "true" : "false");
}

void
lid_json_write_null (LidJsonWriter *writer, const char *name)
{
  name_it (writer, name);
  g_string_append (writer->out, "null");
}

/**
 * lid_json_write_raw:
 * @json: a JSON text that is known to be right, such as a decimal number
 */
void
lid_json_write_raw (LidJsonWriter *writer, const char *name, const char *json)
{
  name_it (writer, name);
  g_string_append (writer->out, json);
}
