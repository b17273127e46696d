/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet.h"
#include "help/board-tables.h"

/* Sets tables one below the other, from page to page. */
typedef struct
{
  LidSheet *sheet;
  LidMeasure measure;
  LidPage *page; /* the last one */
  double y;      /* where the next thing goes, mm from the top */
  double bottom; /* of the body */
  double pt;     /* size of the cells; 0: 8.5 */
  double ticks;  /* room left of each row for a box to tick, mm; 0: none */
} LidTablePen;

void lid_board_page_table_put (LidTablePen *pen, const LidBoardTable *table);
void lid_board_page_table_new_page (LidTablePen *pen);
