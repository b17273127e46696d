/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet-frame.h"

/* Puts machine and words onto pages. */
typedef struct
{
  LidSheet *sheet;
  LidMeasure measure;
  const LidSheetSource *source;
  LidSheetHead head;
  LidMachine *machine;
  LidFlow *flow;
  double width;  /* of the body */
  double bottom; /* of the body, mm from the top */
} LidLayout;

void lid_sheet_compose_pages (LidLayout *layout);
