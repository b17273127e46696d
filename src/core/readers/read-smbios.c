/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/read-smbios.h"

#include "base/error.h"
#include "readers/listing-remarks.h"
#include "readers/listing.h"
#include "readers/smbios-table.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* read-smbios.c: the binary table, DMTF DSP0134. Offsets as in shared/facts/smbios_type*.csv. A
 * field is read only if the structure's length covers it: structures grew with the standard, and
 * one table may mix three ages. The system's UUID and serial numbers are not even looked at. */

#define DUMP_TABLE_AT 0x20u /* a dump file has the table behind 32 bytes of entry point */

typedef struct
{
  LidListing listing;
  GArray *bad_strings; /* gint32, handles with a string number beyond the set */
} Reading;

static guint8
byte_at (const LidSmbiosStructure *structure, gsize offset)
{
  guint8 value = 0;

  lid_bytes_u8 (structure->fields, offset, &value);
  return value;
}

static guint16
word_at (const LidSmbiosStructure *structure, gsize offset)
{
  guint16 value = 0;

  lid_bytes_u16 (structure->fields, offset, &value);
  return value;
}

static guint32
dword_at (const LidSmbiosStructure *structure, gsize offset)
{
  guint32 value = 0;

  lid_bytes_u32 (structure->fields, offset, &value);
  return value;
}

static guint64
qword_at (const LidSmbiosStructure *structure, gsize offset)
{
  guint64 value = 0;

  lid_bytes_u64 (structure->fields, offset, &value);
  return value;
}

static LidBytes
string_at (Reading *reading, const LidSmbiosStructure *structure, gsize offset)
{
  LidBytes string;

  if (!lid_smbios_table_string (structure, offset, &string)
      && reading->bad_strings->len < LID_INVENTORY_MAX_DEVICES
      && (reading->bad_strings->len == 0
          || g_array_index (reading->bad_strings, gint32, reading->bad_strings->len - 1)
                 != structure->handle))
    g_array_append_val (reading->bad_strings, structure->handle);
  return string;
}

/* 0Ch: FFFFh not known, 7FFFh see 1Ch, bit 15 chooses KiB. Without 1Ch, 7FFFh is a full field and
 * stays 32767 MiB: "32 GiB or more". */
static gint64
size_of (const LidSmbiosStructure *structure)
{
  guint16 size = word_at (structure, 0x0c);
  guint32 extended = dword_at (structure, 0x1c) & 0x7fffffffu;

  if (structure->fields.size < 0x0e)
    return -2;
  if (size == 0xffff)
    return -1;
  if (size == 0x7fff && structure->fields.size >= 0x20)
    return extended != 0 ? (gint64)extended * 1024 : -1;
  return size & 0x8000 ? size & 0x7fff : (gint64)size * 1024;
}

/* A 16-bit rate, or the 32-bit one that FFFFh points to. */
static guint
rate_at (const LidSmbiosStructure *structure, gsize offset, gsize extended)
{
  guint16 rate = word_at (structure, offset);

  return rate == 0xffff ? dword_at (structure, extended) & 0x7fffffffu : rate;
}

static guint
width_at (const LidSmbiosStructure *structure, gsize offset)
{
  guint16 width = word_at (structure, offset);

  return width == 0xffff ? 0 : width;
}

static void
read_device (Reading *reading, const LidSmbiosStructure *structure)
{
  LidToldDevice told = { .handle = structure->handle, .array = LID_HANDLE_NONE };

  if (structure->fields.size >= 0x06)
    told.array = word_at (structure, 0x04);
  told.total_width = width_at (structure, 0x08);
  told.data_width = width_at (structure, 0x0a);
  told.size_kib = size_of (structure);
  told.form = byte_at (structure, 0x0e);
  told.locator = string_at (reading, structure, 0x10);
  told.bank = string_at (reading, structure, 0x11);
  told.type = byte_at (structure, 0x12);
  told.detail = word_at (structure, 0x13);
  told.speed = rate_at (structure, 0x15, 0x54);
  told.maker = string_at (reading, structure, 0x17);
  told.serial = string_at (reading, structure, 0x18);
  told.part = string_at (reading, structure, 0x1a);
  told.ranks = byte_at (structure, 0x1b) & 0x0f;
  told.configured = rate_at (structure, 0x20, 0x58);
  told.configured_mv = word_at (structure, 0x26);
  told.technology = byte_at (structure, 0x28);
  lid_listing_device (&reading->listing, &told);
}

static void
read_array (Reading *reading, const LidSmbiosStructure *structure)
{
  LidToldArray told = { .handle = structure->handle };
  guint32 kib = dword_at (structure, 0x07);

  told.use = byte_at (structure, 0x05);
  told.ecc = byte_at (structure, 0x06);
  told.max_kib = kib == 0x80000000u ? (gint64)(qword_at (structure, 0x0f) / 1024) : kib;
  told.n_devices = word_at (structure, 0x0d);
  lid_listing_array (&reading->listing, &told);
}

static void
read_range (Reading *reading, const LidSmbiosStructure *structure)
{
  LidMappedRange range = { .array = word_at (structure, 0x0c) };

  if (structure->fields.size < 0x0e)
    return;
  range.first_kib = dword_at (structure, 0x04);
  range.last_kib = dword_at (structure, 0x08);
  if (range.first_kib == G_MAXUINT32)
    {
      if (structure->fields.size < 0x1f)
        return;
      range.first_kib = qword_at (structure, 0x0f) / 1024;
      range.last_kib = qword_at (structure, 0x17) / 1024;
    }
  lid_listing_range (&reading->listing, structure->handle, &range);
}

static void
read_processor (Reading *reading, const LidSmbiosStructure *structure)
{
  guint8 kind = byte_at (structure, 0x05);

  /* Mathematics, signals, video. Some firmware writes "other" for its central processor. */
  if (kind >= 0x04 && kind <= 0x06)
    return;
  lid_listing_processor (&reading->listing, structure->handle, string_at (reading, structure, 0x04),
                         (byte_at (structure, 0x18) & 0x40) != 0);
}

static void
read_structure (Reading *reading, const LidSmbiosStructure *structure)
{
  LidInventory *inventory = reading->listing.inventory;

  switch (structure->type)
    {
    case 0:
      lid_listing_text (&inventory->firmware, string_at (reading, structure, 0x05));
      lid_listing_text (&inventory->firmware_date, string_at (reading, structure, 0x08));
      break;
    case 1:
      lid_listing_text (&inventory->product, string_at (reading, structure, 0x05));
      lid_listing_text (&inventory->product_version, string_at (reading, structure, 0x06));
      break;
    case 2:
      lid_listing_text (&inventory->board_product, string_at (reading, structure, 0x05));
      lid_listing_text (&inventory->board_version, string_at (reading, structure, 0x06));
      break;
    case 4:
      read_processor (reading, structure);
      break;
    case 16:
      read_array (reading, structure);
      break;
    case 17:
      read_device (reading, structure);
      break;
    case 19:
      read_range (reading, structure);
      break;
    default:
      break;
    }
}

static void
remark_end (Reading *reading, const LidSmbiosWalk *walk)
{
  LidInventory *inventory = reading->listing.inventory;
  g_autofree char *place = NULL;

  if (walk->cut_handle != LID_HANDLE_NONE)
    place = lid_listing_remarks_place (&walk->cut_handle, 1);
  else
    place = g_strdup_printf (_ ("byte %zu of the table"), walk->at);
  switch (walk->end)
    {
    case LID_SMBIOS_END_CUT:
      lid_inventory_remark (inventory, place, _ ("Write the dump again; the file is not whole."),
                            "%s", _ ("The table breaks off here; what came before is read."));
      break;
    case LID_SMBIOS_END_LENGTH:
      lid_inventory_remark (
          inventory, place, _ ("Compare with the slots on the board, and with the setup screen."),
          "%s",
          _ ("A structure here has an impossible length, so the rest of the table "
             "cannot be read; what came before is."));
      break;
    case LID_SMBIOS_END_SIZE:
      lid_inventory_remark (inventory, place, NULL, "%s",
                            _ ("The table ends without its end mark; all of it is read."));
      break;
    case LID_SMBIOS_END_MARK:
    default:
      break;
    }
}

static void
read_table (LidBytes table, LidInventory *inventory)
{
  Reading reading = { .bad_strings = g_array_new (FALSE, FALSE, sizeof (gint32)) };
  LidSmbiosWalk walk;
  LidSmbiosStructure structure;

  lid_listing_init (&reading.listing, inventory);
  lid_smbios_table_walk (&walk, table);
  while (lid_smbios_table_next (&walk, &structure))
    read_structure (&reading, &structure);
  remark_end (&reading, &walk);
  if (reading.bad_strings->len > 0)
    {
      g_autofree char *place = lid_listing_remarks_place ((const gint32 *)reading.bad_strings->data,
                                                          reading.bad_strings->len);
      lid_inventory_remark (inventory, place, NULL, "%s",
                            _ ("A text is pointed to that is not there; it is left empty."));
    }
  lid_listing_finish (&reading.listing);
  lid_listing_clear (&reading.listing);
  g_array_unref (reading.bad_strings);
}

static void
remark_entry (const LidSmbiosEntry *entry, LidInventory *inventory)
{
  if (entry->odd_length)
    lid_inventory_remark (inventory, _ ("entry point"), NULL, "%s",
                          _ ("Its checksum is right only over another length than it states; it is "
                             "taken all the same."));
  if (entry->odd_inner)
    lid_inventory_remark (
        inventory, _ ("entry point"), NULL, "%s",
        _ ("The checksum of its second part is wrong; it is taken all the same."));
}

/**
 * lid_reader_smbios_read_pair:
 * @entry_point: (nullable): the kernel's smbios_entry_point; NULL when there is none
 * @table: the kernel's DMI: the table alone
 * @inventory: to be filled
 * @error: return location
 *
 * Returns: FALSE with an error when the entry point is not one
 */
gboolean
lid_reader_smbios_read_pair (const LidBytes *entry_point,
                             LidBytes table,
                             LidInventory *inventory,
                             GError **error)
{
  LidSmbiosEntry entry;

  if (entry_point != NULL)
    {
      if (!lid_smbios_table_is_entry (*entry_point))
        {
          g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT,
                       _ ("byte %u: no entry point mark; give the table alone"), 0u);
          return FALSE;
        }
      if (!lid_smbios_table_entry (*entry_point, &entry, error))
        return FALSE;
      remark_entry (&entry, inventory);
      if (entry.table_size < table.size)
        lid_bytes_slice (table, 0, entry.table_size, &table);
    }
  read_table (table, inventory);
  return TRUE;
}

/* Where the table begins in a dump: where the entry point says if that is inside the file, else
 * behind 32 bytes, for a file put together from the kernel's two. */
static gboolean
read_dump (LidBytes bytes, LidInventory *inventory, GError **error)
{
  LidBytes table = { NULL, 0 };
  LidSmbiosEntry entry;
  gsize at;

  if (!lid_smbios_table_entry (bytes, &entry, error))
    return FALSE;
  at = entry.table_at >= entry.size && entry.table_at < bytes.size ? entry.table_at : DUMP_TABLE_AT;
  if (at >= bytes.size)
    {
      g_set_error (
          error, LID_ERROR, LID_ERROR_CUT,
          _ ("byte %zu: only the entry point is here; give the table too, as one file or as the "
             "folder with both"),
          bytes.size);
      return FALSE;
    }
  remark_entry (&entry, inventory);
  lid_bytes_slice (bytes, at, MIN (entry.table_size, bytes.size - at), &table);
  if (entry.table_size > bytes.size - at && !lid_bytes_starts (bytes, "_SM3_", 5))
    lid_inventory_remark (inventory, _ ("entry point"), _ ("Write the dump again."),
                          _ ("The file holds %zu bytes of a table of %zu."), bytes.size - at,
                          entry.table_size);
  read_table (table, inventory);
  return TRUE;
}

static int
sniff (LidBytes bytes)
{
  return lid_smbios_table_is_entry (bytes) ? 100 : lid_smbios_table_sniff (bytes);
}

static gboolean
read_smbios (LidBytes bytes, LidInventory *inventory, GError **error)
{
  if (lid_smbios_table_is_entry (bytes))
    return read_dump (bytes, inventory, error);
  return lid_reader_smbios_read_pair (NULL, bytes, inventory, error);
}

const LidReader lid_reader_smbios = {
  .id = "smbios",
  .title = N_ ("SMBIOS table"),
  .sniff = sniff,
  .read = read_smbios,
};
