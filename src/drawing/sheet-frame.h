/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet-machine.h"
#include "drawing/sheet-words.h"

/* What stands around machine and words: head, foot, key, sign-off, room to write. */
double lid_sheet_frame_head (LidSheet *sheet,
                             LidPage *page,
                             const LidMeasure *measure,
                             const LidSheetHead *head);
double lid_sheet_frame_foot_height (const LidSheet *sheet, const LidMeasure *measure);
void
lid_sheet_frame_foot (LidSheet *sheet, const LidMeasure *measure, const LidSheetSource *source);
double lid_sheet_frame_key (LidSheet *sheet,
                            LidPage *page,
                            const LidMeasure *measure,
                            const LidMachine *machine,
                            const LidSheetSource *source,
                            LidBox area);
double lid_sheet_frame_sign_height (const LidSheet *sheet);
void lid_sheet_frame_sign (LidSheet *sheet, LidPage *page, double bottom);
void lid_sheet_frame_notes (LidSheet *sheet, LidPage *page, LidBox area);
