/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <json-glib/json-glib.h>

#define LID_JSON_MAX_BYTES (16u * 1024u * 1024u)
#define LID_JSON_MAX_DEPTH 40u

JsonNode *lid_json_parse (const char *text, gsize size, GError **error);
gboolean lid_json_load (const char *path, char **text, gsize *size, GError **error);
