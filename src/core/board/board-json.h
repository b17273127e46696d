/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/json-read.h"
#include "board/board.h"

/* Reading the members of a board file. Every function takes the object and the member's name; a
 * member that is not there leaves *@out as it was, unless it is needed. Complaints name the path
 * (base/json-read.h). */

#define LID_BOARD_JSON_MAX_TEXT 400u

gboolean lid_board_json_text (
    const LidJsonAt *up, const char *name, gboolean needed, char **out, GError **error);
gboolean lid_board_json_int (const LidJsonAt *up,
                             const char *name,
                             gboolean needed,
                             gint64 most,
                             gint64 *out,
                             GError **error);
gboolean lid_board_json_uint (
    const LidJsonAt *up, const char *name, gboolean needed, guint most, guint *out, GError **error);
gboolean lid_board_json_bool (const LidJsonAt *up, const char *name, gboolean *out, GError **error);
gboolean
lid_board_json_mm (const LidJsonAt *up, const char *name, gint32 *hundredths, GError **error);
gboolean lid_board_json_word (const LidJsonAt *up,
                              const char *name,
                              gboolean needed,
                              const char *const *words,
                              guint *out,
                              GError **error);
gboolean
lid_board_json_kinds (const LidJsonAt *up, const char *name, guint32 *bits, GError **error);
gboolean
lid_board_json_generations (const LidJsonAt *up, const char *name, guint32 *bits, GError **error);
gboolean
lid_board_json_voltages (const LidJsonAt *up, const char *name, guint32 *bits, GError **error);
gboolean lid_board_json_range (
    const LidJsonAt *up, const char *name, guint *least, guint *most, GError **error);
LidRate lid_board_json_snap (guint32 generations, guint mts);
gboolean lid_board_json_rate (const LidJsonAt *up,
                              const char *name,
                              gboolean needed,
                              guint32 generations,
                              LidRate *out,
                              GError **error);
gboolean lid_board_json_length (
    const LidJsonAt *up, const char *name, guint most, guint *length, GError **error);
gboolean
lid_board_json_slot (const LidJsonAt *at, const LidBoard *board, guint *slot, GError **error);
gboolean lid_board_json_slots (const LidJsonAt *up,
                               const char *name,
                               const LidBoard *board,
                               guint **slots,
                               guint *n_slots,
                               GError **error);
