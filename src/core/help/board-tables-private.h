/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "help/board-tables.h"

LidBoardTable *lid_board_tables_add (GPtrArray *tables, const char *title, char *note);
void lid_board_tables_heads (LidBoardTable *table, ...) G_GNUC_NULL_TERMINATED;
void lid_board_tables_row (LidBoardTable *table, char *first, ...) G_GNUC_NULL_TERMINATED;
char *lid_board_tables_kinds (guint32 kinds);
char *lid_board_tables_slots (const LidBoard *board, const guint *slots, guint n_slots);
char *lid_board_tables_source (const char *source);
char *lid_board_tables_most (LidRate rate);

char *lid_board_tables_ways_also (const LidBoard *board, const LidWaysAlso *also);

void lid_board_tables_layout (GPtrArray *tables, const LidBoard *board);
void lid_board_tables_rates (GPtrArray *tables, const LidBoard *board);
void lid_board_tables_rules (GPtrArray *tables, const LidBoard *board);
void lid_board_tables_modes (GPtrArray *tables, const LidBoard *board);
void lid_board_tables_limits (GPtrArray *tables, const LidBoard *board);
