/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/json-read.h"
#include "facts/module.h"

/* Facts in files: one spelling for jobs, boards and the parts memory. A value is written by its
 * fact's word: "capacity_mib": 32768, "kind": "registered", "voltages_mv": [1350, 1500],
 * "height_mm": 31.25. */
gboolean lid_module_json_get_fact (
    const LidJsonAt *at, LidFact fact, LidGeneration generation, gint32 *value, GError **error);
JsonNode *lid_module_json_value (LidFact fact, gint32 value);
LidModule *lid_module_json_read (const LidJsonAt *at, GError **error);
JsonNode *lid_module_json_write (const LidModule *module);
