/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet-flow.h"

/* One row of words: how high it is, and its items. */
double lid_sheet_row_height (LidFlow *flow, const LidRow *row, double width);
void lid_sheet_row_put (LidFlow *flow, const LidRow *row, LidPage *page, LidBox box);
