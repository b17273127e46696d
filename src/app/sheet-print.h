/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/draw-text.h"
#include "drawing/sheet.h"
#include "job/job.h"

#include <gtk/gtk.h>

/* A sheet of a job, or of a stage of its plan, laid out anew for the paper that is chosen in the
 * print dialog. */
LidSheet *lid_sheet_print_layout (const LidJob *job,
                                  guint stage,
                                  const LidSheetOptions *options,
                                  LidDrawText *text);
GtkPrintOperation *lid_sheet_print_new (const LidJob *job,
                                        guint stage,
                                        const LidSheetOptions *options,
                                        const char *title);
/* The page of a board, which is always upright. */
GtkPrintOperation *lid_sheet_print_new_board (LidBoard *board, LidPaper paper, const char *title);
