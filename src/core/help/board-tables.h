/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"

/* All that a board's definition says, as tables in words, for a person who has to check it without
 * reading JSON: nothing left out, every figure with its source. Texts only; the page, the window
 * and whoever else sets them out. */
#define LID_BOARD_TABLE_MOST 8u

typedef struct
{
  const char *title;
  char *note; /* nullable: a paragraph under the title */
  guint n_columns;
  const char *heads[LID_BOARD_TABLE_MOST]; /* NULL in a table of two columns: label and text */
  GPtrArray *rows;                         /* char **, n_columns cells, NULL-terminated */
} LidBoardTable;

GPtrArray *lid_board_tables_new (const LidBoard *board);
