/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "readers/listing-remarks.h"
#include "readers/reader.h"
#include "readers/report-record.h"
#include "readers/report-text.h"
#include "readers/smbios-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* read-report.c: the text report of SMBIOS tables that people paste into mails.
 * It comes whole, as memory types only, or as half of it; quoted, indented or flattened, wrapped,
 * filtered line by line; with headers on one line or, from old versions, on two. So the reader
 * holds on to field names, never to indents or blank lines:
 *   - a "Handle" line or a title closes the record before and opens the next;
 *   - a field that only memory devices have opens one where the header is lost, and again when a
 *     record already has that field;
 *   - of a field told twice in one record the first counts.
 * Nothing is copied per line: records borrow from the text. */

typedef struct
{
  LidListing listing;
  LidReportRecord record;
  gboolean titled;   /* the record's title, or a field, has been seen */
  LidReportKey last; /* what the line before told */
  gboolean awaits;   /* the line before had a field's name and no value */
  LidBytes carry;    /* the line before had neither: may be the head of a wrapped field name */
  gboolean no_table; /* the tool found none */
  gboolean denied;   /* or was not allowed to look */
} Reading;

static LidReportSection
section_of_type (LidBytes digits)
{
  guint type = 0;

  for (gsize i = 0; i < digits.size && i < 3 && g_ascii_isdigit (digits.data[i]); i++)
    type = type * 10 + (guint)(digits.data[i] - '0');
  return lid_report_keys_section (type);
}

/* "Handle 0x1104, DMI type 17, 92 bytes". Old versions break the line behind the handle; there the
 * title on the third line says what it is. */
static void
read_header (Reading *reading, LidBytes line, guint number)
{
  static const char mark[] = ", DMI type ";
  const gsize size = sizeof mark - 1;
  LidBytes rest = { NULL, 0 };
  gint32 handle;

  lid_bytes_slice (line, 7, line.size - 7, &rest);
  handle = lid_smbios_words_handle (rest);
  lid_report_record_open (&reading->record, LID_REPORT_OTHER, handle, number);
  reading->titled = FALSE;
  reading->last = LID_KEY_NONE;
  reading->awaits = FALSE;
  reading->carry.size = 0;
  lid_bytes_slice (rest, MIN (rest.size, 6), rest.size - MIN (rest.size, 6), &rest);
  if (lid_report_text_starts (rest, mark) && lid_bytes_slice (rest, size, rest.size - size, &rest))
    reading->record.section = section_of_type (rest);
}

/* What the tool itself had to say. */
static gboolean
read_message (Reading *reading, LidBytes line, guint number)
{
  LidInventory *inventory = reading->listing.inventory;
  g_autofree char *place = NULL;

  if (lid_report_text_starts (line, "<TRUNCATED>"))
    {
      place = g_strdup_printf (_ ("line %u"), number);
      reading->record.section = LID_REPORT_OTHER;
      lid_inventory_remark (inventory, place,
                            _ ("Read the machine again; the table was not whole."), "%s",
                            _ ("The table broke off here when the report was written."));
    }
  else if (lid_report_text_starts (line, "Invalid entry length")
           && lid_report_text_ends (line, "Stop."))
    {
      place = g_strdup_printf (_ ("line %u"), number);
      lid_inventory_remark (
          inventory, place, _ ("Compare with the slots on the board, and with the setup screen."),
          "%s", _ ("The machine's table is broken here and the report ends early."));
    }
  else if (lid_report_text_starts (line, "No SMBIOS nor DMI entry point"))
    reading->no_table = TRUE;
  else if (lid_report_text_ends (line, "Permission denied"))
    reading->denied = TRUE;
  else
    return FALSE;
  return TRUE;
}

static void
read_line_without_colon (Reading *reading, LidBytes line, guint number)
{
  LidReportSection title = lid_report_keys_title (line);

  if (title != LID_REPORT_NOWHERE)
    {
      if (reading->titled || reading->record.section == LID_REPORT_NOWHERE)
        lid_report_record_open (&reading->record, title, LID_HANDLE_NONE, number);
      else if (reading->record.section == LID_REPORT_OTHER)
        reading->record.section = title;
      reading->titled = TRUE;
    }
  else if (reading->awaits)
    lid_report_record_tell (&reading->record, reading->last, line);
  else if (reading->last == LID_KEY_DETAIL)
    lid_report_record_tell (&reading->record, LID_KEY_DETAIL, line);
  else
    reading->carry = line;
  reading->awaits = FALSE;
}

/* A field name that was wrapped stands on two lines: "Configured Memory", "Speed: 2933 MT/s". */
static LidReportKey
find_key (const Reading *reading, LidReportSection section, LidBytes key)
{
  char joined[64];
  gsize head = reading->carry.size;
  LidReportKey found = LID_KEY_NONE;

  if (head > 0 && head + 1 + key.size <= sizeof joined)
    {
      memcpy (joined, reading->carry.data, head);
      joined[head] = ' ';
      memcpy (joined + head + 1, key.data, key.size);
      found = lid_report_keys_find (section,
                                    (LidBytes){ (const guint8 *)joined, head + 1 + key.size });
    }
  return found != LID_KEY_NONE ? found : lid_report_keys_find (section, key);
}

static void
read_field (Reading *reading, LidBytes line, gsize colon, guint number)
{
  LidBytes key = { line.data, colon };
  LidBytes value = { line.data + colon + 1, line.size - colon - 1 };
  LidReportSection section = reading->record.section;
  LidReportKey found;

  while (key.size > 0 && key.data[key.size - 1] <= ' ')
    key.size--;
  while (value.size > 0 && *value.data <= ' ')
    {
      value.data++;
      value.size--;
    }
  found = find_key (reading, section == LID_REPORT_NOWHERE ? LID_REPORT_DEVICE : section, key);
  reading->carry.size = 0;
  reading->last = LID_KEY_NONE;
  reading->awaits = FALSE;
  if (found == LID_KEY_NONE)
    return;
  if (section == LID_REPORT_NOWHERE
      && (!lid_report_keys_starts_device (found)
          || (found == LID_KEY_SIZE && lid_smbios_words_size_kib (value) < 0)))
    return;
  if (reading->record.told & 1u << found)
    {
      if (section != LID_REPORT_DEVICE || !lid_report_keys_starts_device (found))
        return;
      section = LID_REPORT_NOWHERE;
    }
  if (section == LID_REPORT_NOWHERE)
    lid_report_record_open (&reading->record, LID_REPORT_DEVICE, LID_HANDLE_NONE, number);
  reading->record.told |= 1u << found;
  reading->last = found;
  reading->awaits = value.size == 0;
  if (value.size > 0)
    lid_report_record_tell (&reading->record, found, value);
}

static void
read_line (Reading *reading, LidBytes line, guint number)
{
  const guint8 *colon;

  if (line.size == 0)
    {
      reading->awaits = FALSE;
      reading->last = LID_KEY_NONE;
      return;
    }
  switch (*line.data)
    {
    case 'H':
      if (lid_report_text_starts (line, "Handle 0x"))
        {
          read_header (reading, line, number);
          return;
        }
      break;
    case '<':
    case 'I':
    case 'N':
    case '/':
      if (read_message (reading, line, number))
        return;
      break;
    default:
      break;
    }
  colon = memchr (line.data, ':', line.size);
  if (colon == NULL)
    read_line_without_colon (reading, line, number);
  else
    {
      reading->titled = TRUE;
      if (reading->record.section != LID_REPORT_OTHER)
        read_field (reading, line, (gsize)(colon - line.data), number);
    }
}

static void
read_lines (Reading *reading, LidBytes text)
{
  LidReportLines lines;
  LidBytes line;

  lid_report_text_lines (&lines, text);
  while (lid_report_text_next (&lines, &line))
    read_line (reading, line, lines.number);
  if (lines.unclosed && reading->record.section == LID_REPORT_DEVICE
      && lid_report_keys_may_be_cut (reading->last))
    {
      g_autofree char *place = g_strdup_printf (_ ("line %u"), lines.number);
      lid_inventory_remark (reading->listing.inventory, place,
                            _ ("If it was cut, paste the whole report."), "%s",
                            _ ("The text ends in the middle of a line, whose value may be cut."));
    }
  lid_report_record_close (&reading->record);
}

static gboolean
read_report (LidBytes bytes, LidInventory *inventory, GError **error)
{
  Reading reading = { .titled = TRUE };
  LidBytes text;
  g_autofree char *decoded = lid_report_text_decode (bytes, &text);
  gboolean nothing;

  lid_listing_init (&reading.listing, inventory);
  lid_report_record_init (&reading.record, &reading.listing);
  read_lines (&reading, text);
  nothing = reading.record.n_records == 0 && (reading.no_table || reading.denied);
  if (nothing)
    g_set_error (error, LID_ERROR, LID_ERROR_NOT_FOUND,
                 reading.denied
                     ? _ ("line %u: the program that wrote the report was not allowed to read the "
                          "machine's table; run it again with an administrator's rights")
                     : _ ("line %u: the program that wrote the report found no table; run it again "
                          "with an administrator's rights, or type the modules' labels in"),
                 1u);
  else
    lid_listing_finish (&reading.listing);
  lid_listing_clear (&reading.listing);
  return !nothing;
}

/* Marks in the first megabyte; a report pasted below a longer text than that is not looked for. */
static int
sniff (LidBytes bytes)
{
  LidBytes head = { bytes.data, MIN (bytes.size, 1u << 20) };
  LidBytes text;
  g_autofree char *decoded = lid_report_text_decode (head, &text);
  gboolean locator = lid_report_text_holds (text, "Locator:");

  if (lid_report_text_holds (text, "Handle 0x"))
    return 90;
  if (locator && lid_report_text_holds (text, "Memory Device"))
    return 80;
  if (lid_report_text_holds (text, "DMI type ")
      || lid_report_text_holds (text, "Physical Memory Array"))
    return 70;
  if (lid_report_text_holds (text, "Size: No Module Installed")
      || (locator && lid_report_text_holds (text, "Size:")))
    return 60;
  if (lid_report_text_starts (text, "# dmidecode ")
      || lid_report_text_holds (text, "No SMBIOS nor DMI entry point"))
    return 60;
  return lid_report_text_holds (text, "SMBIOS") && lid_report_text_holds (text, " present.") ? 50
                                                                                             : 0;
}

const LidReader lid_reader_report = {
  .id = "report",
  .title = N_ ("text report of SMBIOS tables"),
  .sniff = sniff,
  .read = read_report,
};
