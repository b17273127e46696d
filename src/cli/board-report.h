/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"

/* One board, for people and as JSON: what the command "boards" prints. */
void lid_board_report_text (GString *out, const LidBoard *board);
void lid_board_report_json (
    GString *out, const char *source, const char *reason, const LidBoard *board, gboolean whole);
