/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "json-line.h"

/* What a reader found odd, as read and prove print it. */
void lid_remarks_json (LidJsonWriter *writer, const GPtrArray *remarks);
void lid_remarks_text (GString *out, const GPtrArray *remarks);
