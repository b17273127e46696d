/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"

#define LID_BOARD_FORMAT 1

LidBoard *lid_board_file_load (const char *path, GError **error);
LidBoard *lid_board_file_parse (const char *text, gsize size, GError **error);
LidBoard *lid_board_file_from_node (JsonNode *node, GError **error);
LidBoard *lid_board_file_from_newer (JsonNode *node, GError **error);
char *lid_board_file_hash (JsonNode *node);
JsonNode *lid_board_file_to_node (const LidBoard *board);
char *lid_board_file_to_text (const LidBoard *board);
gboolean lid_board_file_save (const LidBoard *board, const char *path, GError **error);
