/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/json-parse.h"

/* A place in a JSON document: a node and the way to it. Lives on the stack; the path is written
 * out only for a complaint. A member that is not there has a NULL node. */
typedef struct _LidJsonAt LidJsonAt;
struct _LidJsonAt
{
  JsonNode *node;      /* borrowed, nullable */
  const LidJsonAt *up; /* nullable: the root */
  const char *name;    /* member name; NULL for an element */
  guint index;
  gboolean lenient; /* words of a later format are passed over: lid_json_only() */
};

char *lid_json_path (const LidJsonAt *at);
gboolean lid_json_fail (const LidJsonAt *at, GError **error, const char *format, ...)
    G_GNUC_PRINTF (3, 4);

LidJsonAt lid_json_root (JsonNode *node);
LidJsonAt lid_json_member (const LidJsonAt *at, const char *name);
LidJsonAt lid_json_element (const LidJsonAt *at, guint index);
gboolean lid_json_there (const LidJsonAt *at);
gboolean lid_json_is_null (const LidJsonAt *at);

gboolean lid_json_need_object (const LidJsonAt *at, GError **error);
gboolean lid_json_get_length (const LidJsonAt *at, guint most, guint *length, GError **error);
gboolean
lid_json_get_int (const LidJsonAt *at, gint64 least, gint64 most, gint64 *value, GError **error);
gboolean
lid_json_get_double (const LidJsonAt *at, double least, double most, double *value, GError **error);
gboolean lid_json_get_bool (const LidJsonAt *at, gboolean *value, GError **error);
gboolean lid_json_get_text (const LidJsonAt *at, const char **text, GError **error);
gboolean lid_json_only (const LidJsonAt *at, const char *const *names, GError **error);
JsonObject *lid_json_others (JsonObject *object, const char *const *names);
