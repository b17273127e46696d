/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <json-glib/json-glib.h>

void lid_job_keep (JsonNode *fresh, JsonNode *original);
