/* SPDX-License-Identifier: GPL-3.0-or-later */
/* json-read.c — JSON from outside, bounded before it is parsed.
 *
 * json-glib 1.6 recurses on nesting without a limit (100,000 brackets end the process) and takes
 * much that is no JSON: two roots, single quotes, comments. So the text is walked once by hand
 * first; only what is one balanced root of JSON's own characters, not too deep and not too large,
 * reaches the parser. */
#include "base/json-read.h"

#include "base/error.h"

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
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT, "not JSON: %s", inner->message);
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

/**
 * lid_json_path:
 * @at: a place
 *
 * Returns: (transfer full): the way to it as a person writes it, "sockets[0].name"
 */
char *
lid_json_path (const LidJsonAt *at)
{
  GString *out = g_string_new (NULL);

  for (; at != NULL && at->up != NULL; at = at->up)
    {
      g_autofree char *part = at->name != NULL ? g_strdup_printf (".%s", at->name)
                                               : g_strdup_printf ("[%u]", at->index);
      g_string_prepend (out, part);
    }
  if (out->len > 0 && out->str[0] == '.')
    g_string_erase (out, 0, 1);
  if (out->len == 0)
    g_string_append (out, "the document");
  return g_string_free (out, FALSE);
}

/**
 * lid_json_fail:
 * @at: where
 * @error: set to LID_ERROR_BAD_FORMAT, "path: message"
 * @format: what is wrong and what to write instead
 *
 * Returns: FALSE, always
 */
gboolean
lid_json_fail (const LidJsonAt *at, GError **error, const char *format, ...)
{
  g_autofree char *path = lid_json_path (at);
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT, "%s: %s", path, text);
  return FALSE;
}

LidJsonAt
lid_json_root (JsonNode *node)
{
  return (LidJsonAt){ .node = node };
}

/**
 * lid_json_member:
 * @at: a place that may hold an object
 * @name: the member's name; borrowed
 *
 * Returns: the member's place, with a NULL node when it is not there
 */
LidJsonAt
lid_json_member (const LidJsonAt *at, const char *name)
{
  LidJsonAt out = { .up = at, .name = name };

  if (at->node != NULL && JSON_NODE_HOLDS_OBJECT (at->node))
    out.node = json_object_get_member (json_node_get_object (at->node), name);
  return out;
}

LidJsonAt
lid_json_element (const LidJsonAt *at, guint index)
{
  LidJsonAt out = { .up = at, .index = index };

  if (at->node != NULL && JSON_NODE_HOLDS_ARRAY (at->node)
      && index < json_array_get_length (json_node_get_array (at->node)))
    out.node = json_array_get_element (json_node_get_array (at->node), index);
  return out;
}

gboolean
lid_json_there (const LidJsonAt *at)
{
  return at->node != NULL;
}

gboolean
lid_json_is_null (const LidJsonAt *at)
{
  return at->node == NULL || JSON_NODE_HOLDS_NULL (at->node);
}

gboolean
lid_json_need_object (const LidJsonAt *at, GError **error)
{
  if (at->node == NULL || !JSON_NODE_HOLDS_OBJECT (at->node))
    return lid_json_fail (at, error, at->node == NULL ? "is missing" : "must be an object { }");
  return TRUE;
}

/**
 * lid_json_get_length:
 * @at: a place
 * @most: how many elements it may have
 * @length: (out): how many it has
 *
 * Returns: whether it is an array of at most @most elements
 */
gboolean
lid_json_get_length (const LidJsonAt *at, guint most, guint *length, GError **error)
{
  if (at->node == NULL || !JSON_NODE_HOLDS_ARRAY (at->node))
    return lid_json_fail (at, error, at->node == NULL ? "is missing" : "must be a list [ ]");
  *length = json_array_get_length (json_node_get_array (at->node));
  if (*length > most)
    return lid_json_fail (at, error, "has %u entries; at most %u are taken", *length, most);
  return TRUE;
}

static gboolean
is_number (JsonNode *node)
{
  GType type = node != NULL && JSON_NODE_HOLDS_VALUE (node) ? json_node_get_value_type (node)
                                                            : G_TYPE_INVALID;
  return type == G_TYPE_INT64 || type == G_TYPE_DOUBLE;
}

/**
 * lid_json_get_int:
 * @at: a place
 * @least: smallest value taken
 * @most: largest value taken
 * @value: (out): the whole number there
 *
 * Returns: whether it is a whole number in range
 */
gboolean
lid_json_get_int (const LidJsonAt *at, gint64 least, gint64 most, gint64 *value, GError **error)
{
  double number;

  if (!is_number (at->node))
    return lid_json_fail (at, error, at->node == NULL ? "is missing" : "must be a whole number");
  number = json_node_get_double (at->node);
  if (!isfinite (number) || floor (number) != number || fabs (number) > 9e15)
    return lid_json_fail (at, error, "must be a whole number");
  *value = json_node_get_int (at->node);
  if (*value < least || *value > most)
    return lid_json_fail (at, error,
                          "is %" G_GINT64_FORMAT "; must lie from %" G_GINT64_FORMAT
                          " to %" G_GINT64_FORMAT,
                          *value, least, most);
  return TRUE;
}

gboolean
lid_json_get_double (const LidJsonAt *at, double least, double most, double *value, GError **error)
{
  if (!is_number (at->node))
    return lid_json_fail (at, error, at->node == NULL ? "is missing" : "must be a number");
  *value = json_node_get_double (at->node);
  if (!isfinite (*value) || *value < least || *value > most)
    return lid_json_fail (at, error, "must lie from %g to %g", least, most);
  return TRUE;
}

gboolean
lid_json_get_bool (const LidJsonAt *at, gboolean *value, GError **error)
{
  if (at->node == NULL || !JSON_NODE_HOLDS_VALUE (at->node)
      || json_node_get_value_type (at->node) != G_TYPE_BOOLEAN)
    return lid_json_fail (at, error, at->node == NULL ? "is missing" : "must be true or false");
  *value = json_node_get_boolean (at->node);
  return TRUE;
}

/**
 * lid_json_get_text:
 * @at: a place
 * @text: (out) (transfer none): its text, valid UTF-8, living as long as the document
 *
 * Returns: whether it is a text
 */
gboolean
lid_json_get_text (const LidJsonAt *at, const char **text, GError **error)
{
  if (at->node == NULL || !JSON_NODE_HOLDS_VALUE (at->node)
      || json_node_get_value_type (at->node) != G_TYPE_STRING)
    return lid_json_fail (at, error, at->node == NULL ? "is missing" : "must be a text in quotes");
  *text = json_node_get_string (at->node);
  return TRUE;
}

/**
 * lid_json_only:
 * @at: an object
 * @names: NULL-terminated member names it may have
 *
 * Returns: whether it has no other member; else the error names the first stranger
 */
gboolean
lid_json_only (const LidJsonAt *at, const char *const *names, GError **error)
{
  JsonObjectIter iter;
  const char *name;
  JsonNode *node;

  if (!lid_json_need_object (at, error))
    return FALSE;
  json_object_iter_init (&iter, json_node_get_object (at->node));
  while (json_object_iter_next (&iter, &name, &node))
    if (!g_strv_contains (names, name))
      {
        LidJsonAt there = lid_json_member (at, name);
        return lid_json_fail (&there, error, "is not a word this format has");
      }
  return TRUE;
}

/**
 * lid_json_others:
 * @object: an object
 * @names: NULL-terminated members that are understood
 *
 * Returns: (transfer full) (nullable): the members that are not, to be written back as they were
 */
JsonObject *
lid_json_others (JsonObject *object, const char *const *names)
{
  JsonObject *others = NULL;
  JsonObjectIter iter;
  const char *name;
  JsonNode *node;

  json_object_iter_init (&iter, object);
  while (json_object_iter_next (&iter, &name, &node))
    if (!g_strv_contains (names, name))
      {
        if (others == NULL)
          others = json_object_new ();
        json_object_set_member (others, name, json_node_copy (node));
      }
  return others;
}
