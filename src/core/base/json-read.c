/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json-read.h"

#include "base/error.h"
#include "base/text.h"

#include <math.h>

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
      g_autofree char *part = at->name != NULL ? g_strdup_printf (".%.60s", at->name)
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
  g_autofree char *text = NULL, *whole = NULL, *line = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  whole = g_strconcat (path, ": ", text, NULL);
  line = lid_text_one_line (whole);
  g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_FORMAT, line);
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
  LidJsonAt out = { .up = at, .name = name, .lenient = at->lenient };

  if (at->node != NULL && JSON_NODE_HOLDS_OBJECT (at->node))
    out.node = json_object_get_member (json_node_get_object (at->node), name);
  return out;
}

LidJsonAt
lid_json_element (const LidJsonAt *at, guint index)
{
  LidJsonAt out = { .up = at, .index = index, .lenient = at->lenient };

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
 * Returns: whether it has no other member; else the error names the first stranger. Below a lenient
 * root every member passes: a later version may have put it there
 */
gboolean
lid_json_only (const LidJsonAt *at, const char *const *names, GError **error)
{
  JsonObjectIter iter;
  const char *name;
  JsonNode *node;

  if (!lid_json_need_object (at, error))
    return FALSE;
  if (at->lenient)
    return TRUE;
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
