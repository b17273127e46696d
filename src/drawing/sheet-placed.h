/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet-fit.h"

/* "Lid off": the slots in the order and neighbourhood in which they lie on the board. */
void lid_sheet_placed_try (const LidMachine *machine,
                           const LidPart *part,
                           const LidFitWidest *widest,
                           double width,
                           double height,
                           LidFit *best);
void lid_sheet_placed_put (const LidMachine *machine,
                           const LidFit *fit,
                           const LidSlotShape *shape,
                           LidPage *page,
                           double x,
                           double y,
                           double width);
