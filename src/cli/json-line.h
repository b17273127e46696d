/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/json-write.h"

/* The head every line of --json has: product.md 11. */
void
lid_json_line_open (LidJsonWriter *writer, GString *out, const char *source, const char *reason);
void lid_json_line_file (LidJsonWriter *writer, const char *name, const char *path);
void lid_json_line_close (LidJsonWriter *writer);
void lid_json_line_failure (GString *out, const char *source, const char *reason);
