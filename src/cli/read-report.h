/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board-match.h"
#include "inventory/inventory.h"

/* What "read" says of one input. */
void lid_read_report_json (GString *out, const LidInventory *inventory, const LidMatch *match);
void lid_read_report_text (GString *out, const LidInventory *inventory, const LidMatch *match);
