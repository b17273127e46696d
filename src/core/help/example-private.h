/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "help/example.h"

LidBoard *lid_example_board_new (JsonObject *file);
LidModule *lid_example_board_module (JsonObject *file, const char *name);
char *lid_example_definition_words (const LidBoard *board, const LidBoard *bare);
guint lid_example_board_slot (const LidBoard *board, const char *name);
char *lid_example_module_words (const LidExample *example, const LidModule *module);
LidPopulation *lid_example_populate (JsonObject *file, JsonObject *one, const LidBoard *board);
GPtrArray *lid_example_changes_new (JsonObject *file, const LidExample *example);
