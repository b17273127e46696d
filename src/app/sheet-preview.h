/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/job-model.h"
#include "drawing/sheet.h"

#include <gtk/gtk.h>

/* Sheets as they will be printed, page below page, by the drawing that prints them: no other
 * program is needed. */
#define LID_TYPE_SHEET_PREVIEW (lid_sheet_preview_get_type ())
G_DECLARE_FINAL_TYPE (LidSheetPreview, lid_sheet_preview, LID, SHEET_PREVIEW, GtkWindow)

LidSheetPreview *
lid_sheet_preview_new (const LidJob *job, guint stage, const LidSheetOptions *options);
LidSheetPreview *lid_sheet_preview_new_board (LidBoard *board, GSettings *settings);
LidSheetPreview *lid_sheet_preview_new_printed (LidBoard *board, LidPaper paper);
LidSheetPreview *lid_sheet_preview_new_chosen (LidJobModel *model, GSettings *settings);
guint lid_sheet_preview_n_pages (LidSheetPreview *self);
void lid_sheet_preview_choose (LidSheetPreview *self, const LidSheetOptions *options);
