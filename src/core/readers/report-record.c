/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/report-record.h"

#include "readers/report-text.h"
#include "readers/smbios-words.h"

#include <string.h>

static void
set_up (LidReportRecord *record, LidReportSection section, guint line)
{
  record->section = section;
  record->told = 0;
  memset (&record->device, 0, sizeof record->device);
  record->device.handle = record->handle;
  record->device.array = LID_HANDLE_NONE;
  record->device.line = line;
  record->device.size_kib = -2;
  record->array = (LidToldArray){ .handle = record->handle };
  record->range = (LidMappedRange){ .first_kib = G_MAXUINT64, .array = LID_HANDLE_NONE };
  record->name = (LidBytes){ NULL, 0 };
  record->fitted = record->is_processor = TRUE;
}

/**
 * lid_report_record_close:
 * @record: the record that was being read
 *
 * Hands it over to the listing.
 */
void
lid_report_record_close (LidReportRecord *record)
{
  switch (record->section)
    {
    case LID_REPORT_DEVICE:
      lid_listing_device (record->listing, &record->device);
      break;
    case LID_REPORT_ARRAY:
      lid_listing_array (record->listing, &record->array);
      break;
    case LID_REPORT_RANGE:
      lid_listing_range (record->listing, record->handle, &record->range);
      break;
    case LID_REPORT_PROCESSOR:
      if (record->is_processor)
        lid_listing_processor (record->listing, record->handle, record->name, record->fitted);
      break;
    case LID_REPORT_NOWHERE:
    case LID_REPORT_OTHER:
    case LID_REPORT_FIRMWARE:
    case LID_REPORT_SYSTEM:
    case LID_REPORT_BOARD:
    default:
      break;
    }
}

/**
 * lid_report_record_open:
 * @record: the record that was being read; closed first
 * @section: what the next one is
 * @handle: its handle, LID_HANDLE_NONE when lost
 * @line: where it begins
 */
void
lid_report_record_open (LidReportRecord *record,
                        LidReportSection section,
                        gint32 handle,
                        guint line)
{
  lid_report_record_close (record);
  record->handle = handle;
  record->n_records++;
  set_up (record, section, line);
}

static void
tell_device (LidToldDevice *device, LidReportKey key, LidBytes value)
{
  switch ((guint)key)
    {
    case LID_KEY_ARRAY_HANDLE:
      device->array = lid_smbios_words_handle (value);
      break;
    case LID_KEY_TOTAL_WIDTH:
      device->total_width = lid_smbios_words_number (value, "bits", NULL);
      break;
    case LID_KEY_DATA_WIDTH:
      device->data_width = lid_smbios_words_number (value, "bits", NULL);
      break;
    case LID_KEY_SIZE:
      device->size_kib = lid_smbios_words_size_kib (value);
      break;
    case LID_KEY_FORM:
      device->form = lid_smbios_words_form (value);
      break;
    case LID_KEY_LOCATOR:
      device->locator = value;
      break;
    case LID_KEY_BANK:
      device->bank = value;
      break;
    case LID_KEY_TYPE:
      device->type = lid_smbios_words_type (value);
      device->out_of_spec = value.size > 0 && *value.data == '<';
      break;
    case LID_KEY_DETAIL:
      device->detail |= lid_smbios_words_detail (value);
      break;
    case LID_KEY_SPEED:
      device->speed = lid_smbios_words_number (value, "MT/s", "MHz");
      break;
    case LID_KEY_CONFIGURED:
      device->configured = lid_smbios_words_number (value, "MT/s", "MHz");
      break;
    case LID_KEY_CONFIGURED_VOLTAGE:
      device->configured_mv = lid_smbios_words_millivolts (value);
      break;
    case LID_KEY_MAKER:
      device->maker = value;
      break;
    case LID_KEY_SERIAL:
      device->serial = value;
      break;
    case LID_KEY_PART:
      device->part = value;
      break;
    case LID_KEY_RANK:
      device->ranks = lid_smbios_words_number (value, NULL, NULL);
      break;
    case LID_KEY_TECHNOLOGY:
      device->technology = lid_smbios_words_technology (value);
      break;
    default:
      break;
    }
}

static void
tell_array (LidToldArray *array, LidReportKey key, LidBytes value)
{
  if (key == LID_KEY_USE)
    array->use = lid_smbios_words_use (value);
  else if (key == LID_KEY_ECC)
    array->ecc = lid_smbios_words_ecc (value);
  else if (key == LID_KEY_MAXIMUM)
    array->max_kib = MAX (lid_smbios_words_size_kib (value), 0);
  else if (key == LID_KEY_N_DEVICES)
    array->n_devices = lid_smbios_words_number (value, NULL, NULL);
}

static void
tell_range (LidMappedRange *range, LidReportKey key, LidBytes value)
{
  gboolean told = FALSE;
  guint64 address;

  if (key == LID_KEY_ARRAY_HANDLE)
    {
      range->array = lid_smbios_words_handle (value);
      return;
    }
  address = lid_smbios_words_address (value, &told);
  if (told && key == LID_KEY_FIRST)
    range->first_kib = address / 1024;
  else if (told && key == LID_KEY_LAST)
    range->last_kib = address / 1024;
}

static void
tell_processor (LidReportRecord *record, LidReportKey key, LidBytes value)
{
  if (key == LID_KEY_NAME)
    record->name = value;
  else if (key == LID_KEY_STATUS)
    record->fitted = lid_report_text_starts (value, "Populated");
  else if (key == LID_KEY_TYPE)
    record->is_processor = !lid_report_text_starts (value, "Math")
                           && !lid_report_text_starts (value, "DSP")
                           && !lid_report_text_starts (value, "Video");
}

/**
 * lid_report_record_tell:
 * @record: the record being read
 * @key: a field of its section
 * @value: the field's text, borrowed
 */
void
lid_report_record_tell (LidReportRecord *record, LidReportKey key, LidBytes value)
{
  LidInventory *inventory = record->listing->inventory;

  switch (record->section)
    {
    case LID_REPORT_DEVICE:
      tell_device (&record->device, key, value);
      break;
    case LID_REPORT_ARRAY:
      tell_array (&record->array, key, value);
      break;
    case LID_REPORT_RANGE:
      tell_range (&record->range, key, value);
      break;
    case LID_REPORT_PROCESSOR:
      tell_processor (record, key, value);
      break;
    case LID_REPORT_FIRMWARE:
      lid_listing_text (key == LID_KEY_DATE ? &inventory->firmware_date : &inventory->firmware,
                        value);
      break;
    case LID_REPORT_SYSTEM:
      lid_listing_text (key == LID_KEY_PRODUCT ? &inventory->product : &inventory->product_version,
                        value);
      break;
    case LID_REPORT_BOARD:
      lid_listing_text (
          key == LID_KEY_PRODUCT ? &inventory->board_product : &inventory->board_version, value);
      break;
    case LID_REPORT_NOWHERE:
    case LID_REPORT_OTHER:
    default:
      break;
    }
}

/**
 * lid_report_record_init:
 * @record: (out): no record yet
 * @listing: where finished records go
 */
void
lid_report_record_init (LidReportRecord *record, LidListing *listing)
{
  memset (record, 0, sizeof *record);
  record->listing = listing;
  record->handle = LID_HANDLE_NONE;
  set_up (record, LID_REPORT_NOWHERE, 0);
}
