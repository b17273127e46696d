/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"

/* Slots as somebody types them: "A1, B1". */
gboolean
lid_slot_list_mark (const LidBoard *board, const char *list, guint8 *marks, GError **error);
