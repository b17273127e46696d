/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "changeover/changeover-lists.h"
#include "drawing/sheet.h"

/* The lists of a change-over on paper: pick and pull list as a table to tick off, bag tags as cards
 * to cut out. Upright. */
LidSheet *lid_sheet_lists_new (const LidJob *job,
                               const LidChangeoverList *list,
                               LidPaper paper,
                               const LidMeasure *measure);

/* sheet-tags.c */
void lid_sheet_tags_put (LidSheet *sheet, const LidMeasure *measure, const LidChangeoverList *list);
