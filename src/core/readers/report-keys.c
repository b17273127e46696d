/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/report-keys.h"

#include "readers/report-text.h"

#include <string.h>

/* report-keys.c: the field names of the report. They are the standard's own (DMTF DSP0134); two
 * spellings where versions of the tool differ. Sorted by section; lengths are worked out once by
 * the compiler so that a line costs a few comparisons of numbers. */

#define KEY(section, text, key)                                                                    \
  {                                                                                                \
    text, sizeof text - 1, section, key                                                            \
  }

static const struct
{
  const char *text;
  guint8 size;
  guint8 section;
  guint8 key;
} keys[] = {
  KEY (LID_REPORT_FIRMWARE, "Version", LID_KEY_VERSION),
  KEY (LID_REPORT_FIRMWARE, "Release Date", LID_KEY_DATE),
  KEY (LID_REPORT_SYSTEM, "Product Name", LID_KEY_PRODUCT),
  KEY (LID_REPORT_SYSTEM, "Version", LID_KEY_VERSION),
  KEY (LID_REPORT_BOARD, "Product Name", LID_KEY_PRODUCT),
  KEY (LID_REPORT_BOARD, "Version", LID_KEY_VERSION),
  KEY (LID_REPORT_PROCESSOR, "Socket Designation", LID_KEY_NAME),
  KEY (LID_REPORT_PROCESSOR, "Type", LID_KEY_TYPE),
  KEY (LID_REPORT_PROCESSOR, "Status", LID_KEY_STATUS),
  KEY (LID_REPORT_ARRAY, "Use", LID_KEY_USE),
  KEY (LID_REPORT_ARRAY, "Error Correction Type", LID_KEY_ECC),
  KEY (LID_REPORT_ARRAY, "Maximum Capacity", LID_KEY_MAXIMUM),
  KEY (LID_REPORT_ARRAY, "Number Of Devices", LID_KEY_N_DEVICES),
  KEY (LID_REPORT_DEVICE, "Array Handle", LID_KEY_ARRAY_HANDLE),
  KEY (LID_REPORT_DEVICE, "Total Width", LID_KEY_TOTAL_WIDTH),
  KEY (LID_REPORT_DEVICE, "Data Width", LID_KEY_DATA_WIDTH),
  KEY (LID_REPORT_DEVICE, "Size", LID_KEY_SIZE),
  KEY (LID_REPORT_DEVICE, "Form Factor", LID_KEY_FORM),
  KEY (LID_REPORT_DEVICE, "Locator", LID_KEY_LOCATOR),
  KEY (LID_REPORT_DEVICE, "Bank Locator", LID_KEY_BANK),
  KEY (LID_REPORT_DEVICE, "Type", LID_KEY_TYPE),
  KEY (LID_REPORT_DEVICE, "Type Detail", LID_KEY_DETAIL),
  KEY (LID_REPORT_DEVICE, "Speed", LID_KEY_SPEED),
  KEY (LID_REPORT_DEVICE, "Manufacturer", LID_KEY_MAKER),
  KEY (LID_REPORT_DEVICE, "Serial Number", LID_KEY_SERIAL),
  KEY (LID_REPORT_DEVICE, "Part Number", LID_KEY_PART),
  KEY (LID_REPORT_DEVICE, "Rank", LID_KEY_RANK),
  KEY (LID_REPORT_DEVICE, "Configured Memory Speed", LID_KEY_CONFIGURED),
  KEY (LID_REPORT_DEVICE, "Configured Clock Speed", LID_KEY_CONFIGURED),
  KEY (LID_REPORT_DEVICE, "Configured Voltage", LID_KEY_CONFIGURED_VOLTAGE),
  KEY (LID_REPORT_DEVICE, "Memory Technology", LID_KEY_TECHNOLOGY),
  KEY (LID_REPORT_RANGE, "Starting Address", LID_KEY_FIRST),
  KEY (LID_REPORT_RANGE, "Ending Address", LID_KEY_LAST),
  KEY (LID_REPORT_RANGE, "Physical Array Handle", LID_KEY_ARRAY_HANDLE),
};

static const struct
{
  const char *title;
  LidReportSection section;
} titles[] = {
  { "Memory Device", LID_REPORT_DEVICE },
  { "Physical Memory Array", LID_REPORT_ARRAY },
  { "Memory Array Mapped Address", LID_REPORT_RANGE },
  { "Processor Information", LID_REPORT_PROCESSOR },
  { "Base Board Information", LID_REPORT_BOARD },
  { "System Information", LID_REPORT_SYSTEM },
  { "BIOS Information", LID_REPORT_FIRMWARE },
};

/* How the titles of the other structures end; no value or wrapped line looks like that. */
static const char *const other_ends[] = {
  " Information",  " Mapped Address", " Structure", " Table",     " Strings", "-specific Type",
  " Port",         " Slot",           " Probe",     " Component", " Data",    " Log",
  " Power Supply", " Reset",          " Options",   " Controls",  " Battery", " Device",
};

/**
 * lid_report_keys_find:
 * @section: where the line stands
 * @key: what is in front of the colon
 *
 * Returns: what it means there, LID_KEY_NONE when it is of no interest
 */
LidReportKey
lid_report_keys_find (LidReportSection section, LidBytes key)
{
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i].size == key.size && keys[i].section == section
        && memcmp (keys[i].text, key.data, key.size) == 0)
      return keys[i].key;
  return LID_KEY_NONE;
}

/**
 * lid_report_keys_section:
 * @type: number of an SMBIOS structure type
 */
LidReportSection
lid_report_keys_section (guint type)
{
  static const LidReportSection sections[] = {
    [0] = LID_REPORT_FIRMWARE,  [1] = LID_REPORT_SYSTEM, [2] = LID_REPORT_BOARD,
    [4] = LID_REPORT_PROCESSOR, [16] = LID_REPORT_ARRAY, [17] = LID_REPORT_DEVICE,
    [19] = LID_REPORT_RANGE,
  };

  /* A type without entry is LID_REPORT_NOWHERE in the table. */
  return type < G_N_ELEMENTS (sections) && sections[type] != LID_REPORT_NOWHERE ? sections[type]
                                                                                : LID_REPORT_OTHER;
}

/**
 * lid_report_keys_title:
 * @line: a line without a colon
 *
 * Returns: the section it heads; LID_REPORT_NOWHERE when it is no title
 */
LidReportSection
lid_report_keys_title (LidBytes line)
{
  if (line.size < 8)
    return LID_REPORT_NOWHERE;
  for (gsize i = 0; i < G_N_ELEMENTS (titles); i++)
    if (strlen (titles[i].title) == line.size
        && memcmp (titles[i].title, line.data, line.size) == 0)
      return titles[i].section;
  for (gsize i = 0; i < G_N_ELEMENTS (other_ends); i++)
    if (lid_report_text_ends (line, other_ends[i]))
      return LID_REPORT_OTHER;
  return LID_REPORT_NOWHERE;
}

/**
 * lid_report_keys_starts_device:
 *
 * Returns: whether the line stands early enough in a memory device to begin one whose header is
 * lost, and is so much its own that no other structure has it
 */
gboolean
lid_report_keys_starts_device (LidReportKey key)
{
  return key == LID_KEY_SIZE || key == LID_KEY_LOCATOR || key == LID_KEY_TOTAL_WIDTH
         || key == LID_KEY_FORM || key == LID_KEY_ARRAY_HANDLE || key == LID_KEY_BANK;
}

/**
 * lid_report_keys_may_be_cut:
 *
 * Returns: whether a value of this line cut short could pass for another value; numbers with a unit
 * cannot
 */
gboolean
lid_report_keys_may_be_cut (LidReportKey key)
{
  return key == LID_KEY_LOCATOR || key == LID_KEY_BANK || key == LID_KEY_TYPE
         || key == LID_KEY_DETAIL || key == LID_KEY_PART || key == LID_KEY_SERIAL
         || key == LID_KEY_MAKER || key == LID_KEY_RANK || key == LID_KEY_FORM
         || key == LID_KEY_TECHNOLOGY;
}
