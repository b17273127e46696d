/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board-file.h"
#include "board/board-json.h"

/* The parts of a board file; board-file.c calls them in this order. Each reads its members of the
 * root object into a board under construction. */
gboolean lid_board_file_layout_read (LidBoard *board, const LidJsonAt *root, GError **error);
LidModule *lid_board_file_soldered_read (const LidJsonAt *at, GError **error);
JsonObject *lid_board_file_soldered_write (const LidModule *module);
gboolean lid_board_file_rules_read (LidBoard *board, const LidJsonAt *root, GError **error);
gboolean lid_board_file_modes_read (LidBoard *board, const LidJsonAt *root, GError **error);
gboolean lid_board_file_rates_read (LidBoard *board, const LidJsonAt *root, GError **error);
gboolean lid_board_file_processor_read (const LidBoard *board,
                                        const LidJsonAt *up,
                                        int *index,
                                        GError **error);
gboolean lid_board_file_ways_read (LidBoard *board, const LidJsonAt *root, GError **error);
gboolean lid_board_file_limits_read (LidBoard *board, const LidJsonAt *root, GError **error);
gboolean lid_board_file_names_read (LidBoard *board, const LidJsonAt *root, GError **error);

gboolean lid_board_airflow_read (LidBoard *board, const LidJsonAt *root, GError **error);

/* The same parts the other way. */
void lid_board_save_layout (const LidBoard *board, JsonObject *root);
void lid_board_save_rules (const LidBoard *board, JsonObject *root);
void lid_board_file_modes_write (const LidBoard *board, JsonObject *root);
void lid_board_file_ways_write (const LidBoard *board, JsonObject *interleave);
void lid_board_save_limits (const LidBoard *board, JsonObject *root);
void lid_board_airflow_save (const LidBoard *board, JsonObject *root);
void lid_board_airflow_free (LidBoard *board);
void lid_board_save_set (JsonObject *object,
                         const char *name,
                         guint32 bits,
                         const char *(*to_text) (guint value));
const char *lid_board_save_kind (guint value);
const char *lid_board_save_generation (guint value);
void lid_board_save_object (JsonObject *root, const char *name, JsonObject *object);
