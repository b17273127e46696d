/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"

/* Where definitions lie: the program's own and the user's. Found by an index of fingerprints, so
 * that reading one inventory parses at most the boards that may fit it. Indexes and the boards used
 * last are kept for the life of the process: a fleet of equal machines is parsed once. Not for
 * several threads. */
typedef struct
{
  char *id; /* nullable: the file is no board */
  char *path;
  gboolean users;
} LidBoardEntry;

GPtrArray *lid_board_list_all (void);
LidBoard *lid_board_list_load (const char *id_or_path, GError **error);
GPtrArray *lid_board_list_find_names (const char *names_hash);
GPtrArray *lid_board_list_find_locators (const char *locators_hash);
char *lid_board_list_user_folder (void);
gboolean lid_board_list_save_user (const LidBoard *board, GError **error);
gboolean lid_board_list_drop_user (const LidBoard *board);
void lid_board_list_set_folders (const char *platforms, const char *user);
