/* SPDX-License-Identifier: GPL-3.0-or-later */
/* json-parse.c — JSON from outside, bounded before it is parsed.
 *
 * json-glib 1.6 recurses on nesting without a limit (100,000 brackets end the process) and takes
 * much that is no JSON: two roots, single quotes, comments. So the text is walked once by hand
 * first; only what is one balanced root of JSON's own characters, not too deep and not too large,
 * reaches the parser. */
#include "base/json-parse.h"

#include "base/error.h"
#include "base/text.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>
#include <sys/stat.h>

static gboolean
scan_fail (GError **error, const char *text, gsize at, const char *what)
{
  guint line = 1;

  for (gsize i = 0; i < at; i++)
    line += text[i] == '\n';
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT, "line %u: %s", line, what);
  return FALSE;
}

static gboolean
too_large (GError **error)
{
  g_set_error (error, LID_ERROR, LID_ERROR_TOO_LARGE,
               "larger than %u MB, which no job or board needs", LID_JSON_MAX_BYTES >> 20);
  return FALSE;
}

static gboolean
skip_string (const char *text, gsize size, gsize *at, GError **error)
{
  gsize start = *at;

  for (gsize i = start + 1; i < size; i++)
    {
      if (text[i] == '\\')
        i++;
      else if (text[i] == '"')
        {
          *at = i;
          return TRUE;
        }
      else if ((guchar)text[i] < 0x20)
        return scan_fail (error, text, i, "a text holds a control character");
    }
  return scan_fail (error, text, start, "a text is not closed");
}

/* Whole numbers beyond 64 bits and others beyond a double would be kept as something else. */
static gboolean
skip_number (const char *text, gsize size, gsize *at, GError **error)
{
  gsize n = 0;
  gboolean whole = TRUE;
  g_autofree char *number = NULL;

  while (*at + n < size && n < 400 && strchr ("+-.0123456789eE", text[*at + n]) != NULL
         && text[*at + n] != 0)
    {
      whole = whole && strchr (".eE", text[*at + n]) == NULL;
      n++;
    }
  number = g_strndup (text + *at, n);
  errno = 0;
  if (whole)
    g_ascii_strtoll (number, NULL, 10);
  if (n == 400 || (whole && errno == ERANGE) || !isfinite (g_ascii_strtod (number, NULL)))
    return scan_fail (error, text, *at, "a number too large to be kept");
  *at += n - 1;
  return TRUE;
}

static gboolean
scan (const char *text, gsize size, GError **error)
{
  char open[LID_JSON_MAX_DEPTH];
  guint depth = 0;
  gboolean done = FALSE;

  for (gsize i = 0; i < size; i++)
    {
      char c = text[i];

      if (strchr (" \t\r\n", c) != NULL && c != 0)
        continue;
      if (done)
        return scan_fail (error, text, i, "something follows the end of the document");
      if (depth == 0 && c != '{' && c != '[')
        return scan_fail (error, text, i, "not JSON: it must begin with { or [");
      if (c == '{' || c == '[')
        {
          if (depth == LID_JSON_MAX_DEPTH)
            {
              scan_fail (error, text, i, "nested too deep");
              return FALSE;
            }
          open[depth++] = c;
        }
      else if (c == '}' || c == ']')
        {
          if (open[depth - 1] != (c == '}' ? '{' : '['))
            return scan_fail (error, text, i, "a bracket closes what was not open");
          done = --depth == 0;
        }
      else if (c == '"')
        {
          if (!skip_string (text, size, &i, error))
            return FALSE;
        }
      else if (c == '-' || g_ascii_isdigit (c))
        {
          if (!skip_number (text, size, &i, error))
            return FALSE;
        }
      else if (c == 0 || strchr (",:+-.0123456789eEtrufalsn", c) == NULL)
        return scan_fail (error, text, i, "a character that JSON does not have");
    }
  return done || scan_fail (error, text, size, "the document ends too early");
}

/**
 * lid_json_parse:
 * @text: the document; needs no NUL at its end
 * @size: its bytes
 * @error: LID_ERROR_TOO_LARGE or LID_ERROR_BAD_FORMAT, with the line
 *
 * Returns: (transfer full) (nullable): the root, an object or an array
 */
JsonNode *
lid_json_parse (const char *text, gsize size, GError **error)
{
  g_autoptr (JsonParser) parser = NULL;
  g_autoptr (GError) inner = NULL;
  JsonNode *root;

  if (size > LID_JSON_MAX_BYTES)
    {
      too_large (error);
      return NULL;
    }
  if (size >= 3 && memcmp (text, "\xef\xbb\xbf", 3) == 0)
    {
      text += 3;
      size -= 3;
    }
  if (!g_utf8_validate (text, (gssize)size, NULL))
    {
      g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_FORMAT, "not UTF-8 text");
      return NULL;
    }
  if (!scan (text, size, error))
    return NULL;
  parser = json_parser_new_immutable ();
  if (!json_parser_load_from_data (parser, text, (gssize)size, &inner))
    {
      /* The parser quotes what it stumbled over, of any length and not always UTF-8. */
      g_autofree char *said = lid_text_clean (inner->message, -1);

      g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT, "not JSON: %s", said);
      return NULL;
    }
  root = json_parser_steal_root (parser);
  if (root == NULL)
    g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_FORMAT, "an empty document");
  return root;
}

/**
 * lid_json_load:
 * @path: a file
 * @text: (out) (transfer full): its bytes
 * @size: (out): how many
 * @error: says what is wrong
 *
 * Looks at the size before reading, so that a wrong file does not fill the memory.
 *
 * Returns: whether it could be read
 */
gboolean
lid_json_load (const char *path, char **text, gsize *size, GError **error)
{
  GStatBuf info;

  if (g_stat (path, &info) == 0 && S_ISREG (info.st_mode) && info.st_size > LID_JSON_MAX_BYTES)
    return too_large (error);
  return g_file_get_contents (path, text, size, error);
}
