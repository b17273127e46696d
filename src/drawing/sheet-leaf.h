/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet-fit.h"

/* Puts a part of the machine onto a page, as a fit says. */
void lid_sheet_leaf_put (const LidMachine *machine,
                         const LidPart *part,
                         const LidFit *fit,
                         LidPage *page,
                         double x,
                         double y,
                         double width);
