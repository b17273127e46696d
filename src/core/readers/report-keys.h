/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/bytes.h"

/* Which structure the lines of a report belong to. */
typedef enum
{
  LID_REPORT_NOWHERE, /* before the first header: a report that was cut or filtered */
  LID_REPORT_OTHER,   /* a structure that says nothing about memory */
  LID_REPORT_FIRMWARE,
  LID_REPORT_SYSTEM,
  LID_REPORT_BOARD,
  LID_REPORT_PROCESSOR,
  LID_REPORT_ARRAY,
  LID_REPORT_DEVICE,
  LID_REPORT_RANGE,
} LidReportSection;

/* What a line says. */
typedef enum
{
  LID_KEY_NONE,
  LID_KEY_ARRAY_HANDLE,
  LID_KEY_BANK,
  LID_KEY_CONFIGURED,
  LID_KEY_CONFIGURED_VOLTAGE,
  LID_KEY_DATA_WIDTH,
  LID_KEY_DATE,
  LID_KEY_DETAIL,
  LID_KEY_ECC,
  LID_KEY_FIRST,
  LID_KEY_FORM,
  LID_KEY_LAST,
  LID_KEY_LOCATOR,
  LID_KEY_MAKER,
  LID_KEY_MAXIMUM,
  LID_KEY_N_DEVICES,
  LID_KEY_NAME,
  LID_KEY_PART,
  LID_KEY_PRODUCT,
  LID_KEY_RANK,
  LID_KEY_SERIAL,
  LID_KEY_SIZE,
  LID_KEY_SPEED,
  LID_KEY_STATUS,
  LID_KEY_TECHNOLOGY,
  LID_KEY_TOTAL_WIDTH,
  LID_KEY_TYPE,
  LID_KEY_USE,
  LID_KEY_VERSION,
  LID_N_KEYS
} LidReportKey;

LidReportKey lid_report_keys_find (LidReportSection section, LidBytes key);
LidReportSection lid_report_keys_section (guint type);
LidReportSection lid_report_keys_title (LidBytes line);
gboolean lid_report_keys_starts_device (LidReportKey key);
gboolean lid_report_keys_may_be_cut (LidReportKey key);
