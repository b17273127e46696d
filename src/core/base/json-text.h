/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <json-glib/json-glib.h>

char *lid_json_text (JsonNode *node, gboolean indented);
