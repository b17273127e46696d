/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* The index of a folder of boards: a text file of lines of tab-separated words, so that finding the
 * boards one machine may fit parses none of the others.
 *
 *   lidleaf-board-index 1
 *   board     FILE SIZE MTIME ID      one a file, in the order of names; ID is empty if unreadable
 *   locators  HASH FILE               what its machines call their slots (board-names.h),
 *   names     HASH FILE               sorted by hash
 */
#define LID_BOARD_INDEX_FILE "index"

char *lid_board_index_make (const char *folder, GPtrArray *complaints);
gboolean lid_board_index_is_fresh (const char *index, const char *folder);
GPtrArray *lid_board_index_find (const char *index, const char *kind, const char *key);
