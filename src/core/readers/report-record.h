/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "readers/listing.h"
#include "readers/report-keys.h"

/* The structure whose lines are being read. */
typedef struct
{
  LidListing *listing; /* borrowed */
  LidReportSection section;
  gint32 handle;
  guint32 told;    /* 1 << LidReportKey: fields already told */
  guint n_records; /* opened so far */
  LidToldDevice device;
  LidToldArray array;
  LidMappedRange range;
  LidBytes name; /* a processor's socket */
  gboolean fitted;
  gboolean is_processor;
} LidReportRecord;

void lid_report_record_init (LidReportRecord *record, LidListing *listing);
void lid_report_record_open (LidReportRecord *record,
                             LidReportSection section,
                             gint32 handle,
                             guint line);
void lid_report_record_close (LidReportRecord *record);
void lid_report_record_tell (LidReportRecord *record, LidReportKey key, LidBytes value);
