/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet.h"

#include "job/job.h"

LidOf lid_sheet_layout_shows (const LidJob *job, LidSheetFor what);
LidSheet *lid_sheet_layout_new_stage (const LidJob *job,
                                      guint stage,
                                      const LidAssessment *assessment,
                                      const LidSheetOptions *options,
                                      const LidMeasure *measure);
LidSheet *lid_sheet_layout_new (const LidJob *job,
                                const LidAssessment *assessment,
                                const LidSheetOptions *options,
                                const LidMeasure *measure);
