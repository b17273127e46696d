/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/smbios-table.h"

#include "base/error.h"
#include "inventory/inventory.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* smbios-table.c: entry points and the walk over structures, DMTF DSP0134, 5.2 and 6.1
 * (shared/facts/smbios_entry_points.csv). No length found in the bytes is trusted: the walk stops
 * at the end of the bytes whatever they say, and advances by at least six bytes a step. */

#define ENTRY_32 0x1fu
#define ENTRY_32_SHORT 0x1eu /* an error of the 2.1 standard that some machines copied */
#define ENTRY_64 0x18u

static gboolean
sum_is_right (LidBytes bytes, gsize at, gsize size)
{
  LidBytes part;

  return lid_bytes_slice (bytes, at, size, &part) && lid_bytes_sum (part) == 0;
}

static gboolean
fail_entry (gsize size, GError **error)
{
  g_set_error (
      error, LID_ERROR, size < ENTRY_64 ? LID_ERROR_CUT : LID_ERROR_BAD_FORMAT,
      size < ENTRY_64
          ? _ ("byte %u: the entry point of the table is cut short; write the dump again")
          : _ ("byte %u: the checksum of the entry point is wrong; write the dump again, or "
               "give the table without its entry point"),
      0u);
  return FALSE;
}

static gboolean
read_entry_32 (LidBytes bytes, LidSmbiosEntry *entry, GError **error)
{
  guint8 stated = 0;
  guint16 table_size = 0;
  guint32 table_at = 0;
  gboolean as_stated;

  if (!lid_bytes_u8 (bytes, 0x05, &stated) || !lid_bytes_u16 (bytes, 0x16, &table_size)
      || !lid_bytes_u32 (bytes, 0x18, &table_at))
    return fail_entry (0, error);
  as_stated = stated >= ENTRY_32_SHORT && stated <= 0x20 && sum_is_right (bytes, 0, stated);
  if (!as_stated && !sum_is_right (bytes, 0, ENTRY_32) && !sum_is_right (bytes, 0, ENTRY_32_SHORT))
    return fail_entry (bytes.size, error);
  if (memcmp (bytes.data + 0x10, "_DMI_", 5) != 0)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT,
                   _ ("byte %u: the entry point lacks its second mark; write the dump again"),
                   0x10u);
      return FALSE;
    }
  entry->size = ENTRY_32;
  entry->table_at = table_at;
  entry->table_size = table_size;
  entry->odd_length = !as_stated;
  entry->odd_inner = !sum_is_right (bytes, 0x10, 0x0f);
  return TRUE;
}

static gboolean
read_entry_64 (LidBytes bytes, LidSmbiosEntry *entry, GError **error)
{
  guint8 stated = 0;
  guint32 table_size = 0;
  guint64 table_at = 0;

  if (!lid_bytes_u8 (bytes, 0x06, &stated) || !lid_bytes_u32 (bytes, 0x0c, &table_size)
      || !lid_bytes_u64 (bytes, 0x10, &table_at))
    return fail_entry (0, error);
  if (stated < ENTRY_64 || stated > 0x20 || !sum_is_right (bytes, 0, stated))
    return fail_entry (bytes.size, error);
  entry->size = stated;
  entry->table_at = table_at > G_MAXUINT32 ? G_MAXUINT32 : (gsize)table_at;
  entry->table_size = table_size;
  return TRUE;
}

/**
 * lid_smbios_table_is_entry:
 *
 * Returns: whether the bytes start with the mark of a 32- or 64-bit entry point
 */
gboolean
lid_smbios_table_is_entry (LidBytes bytes)
{
  return lid_bytes_starts (bytes, "_SM3_", 5) || lid_bytes_starts (bytes, "_SM_", 4);
}

/**
 * lid_smbios_table_entry:
 * @bytes: starting with an entry point's mark
 * @entry: (out): what it says
 * @error: return location
 *
 * Returns: FALSE with LID_ERROR_CUT or LID_ERROR_BAD_FORMAT when its sum is wrong
 */
gboolean
lid_smbios_table_entry (LidBytes bytes, LidSmbiosEntry *entry, GError **error)
{
  memset (entry, 0, sizeof *entry);
  return lid_bytes_starts (bytes, "_SM3_", 5) ? read_entry_64 (bytes, entry, error)
                                              : read_entry_32 (bytes, entry, error);
}

void
lid_smbios_table_walk (LidSmbiosWalk *walk, LidBytes table)
{
  walk->table = table;
  walk->at = 0;
  walk->end = LID_SMBIOS_END_SIZE;
  walk->cut_handle = LID_HANDLE_NONE;
}

/* The string set after the formatted part ends at the first two NULs in a row; a structure without
 * strings has the two NULs alone. Gives FALSE when the bytes end before that. */
static gboolean
find_strings (LidBytes table, gsize at, LidBytes *strings, gsize *next)
{
  for (gsize end = at; end + 1 < table.size; end++)
    {
      const guint8 *nul = memchr (table.data + end, 0, table.size - 1 - end);

      if (nul == NULL)
        return FALSE;
      end = (gsize)(nul - table.data);
      if (nul[1] == 0)
        {
          *next = end + 2;
          return lid_bytes_slice (table, at, end - at, strings);
        }
    }
  return FALSE;
}

/**
 * lid_smbios_table_next:
 * @walk: a walk
 * @structure: (out): the next structure
 *
 * Returns: FALSE at the end of the table; walk->end says which end
 */
gboolean
lid_smbios_table_next (LidSmbiosWalk *walk, LidSmbiosStructure *structure)
{
  guint8 type = 0, length = 0;
  guint16 handle = 0;
  gsize next = 0;

  walk->cut_handle = LID_HANDLE_NONE;
  if (walk->at >= walk->table.size)
    {
      walk->end = LID_SMBIOS_END_SIZE;
      return FALSE;
    }
  walk->end = LID_SMBIOS_END_CUT;
  if (!lid_bytes_u8 (walk->table, walk->at, &type)
      || !lid_bytes_u8 (walk->table, walk->at + 1, &length))
    return FALSE;
  if (length < 4)
    {
      walk->end = LID_SMBIOS_END_LENGTH;
      return FALSE;
    }
  if (!lid_bytes_u16 (walk->table, walk->at + 2, &handle))
    return FALSE;
  walk->cut_handle = handle;
  if (type == 127)
    {
      walk->end = LID_SMBIOS_END_MARK;
      return FALSE;
    }
  if (!lid_bytes_slice (walk->table, walk->at, length, &structure->fields)
      || !find_strings (walk->table, walk->at + length, &structure->strings, &next))
    return FALSE;
  structure->type = type;
  structure->handle = handle;
  walk->at = next;
  return TRUE;
}

/**
 * lid_smbios_table_string:
 * @structure: a structure
 * @offset: of the field that holds the string's number
 * @string: (out): the string, size 0 where there is none
 *
 * Returns: FALSE when the number points beyond the set
 */
gboolean
lid_smbios_table_string (const LidSmbiosStructure *structure, gsize offset, LidBytes *string)
{
  guint8 number = 0;
  gsize at = 0;

  string->data = NULL;
  string->size = 0;
  if (!lid_bytes_u8 (structure->fields, offset, &number) || number == 0)
    return TRUE;
  while (at < structure->strings.size)
    {
      const guint8 *text = structure->strings.data + at;
      const guint8 *nul = memchr (text, 0, structure->strings.size - at);
      gsize size = nul != NULL ? (gsize)(nul - text) : structure->strings.size - at;

      if (--number == 0)
        {
          string->data = text;
          string->size = size;
          return TRUE;
        }
      at += size + 1;
    }
  return FALSE;
}

static gboolean
speaks_of_machine (guint8 type)
{
  return type <= 2 || type == 4 || type == 16 || type == 17;
}

/**
 * lid_smbios_table_sniff:
 * @table: bytes that may be a table without entry point
 *
 * A table has no mark of its own, and some begin with a type of the maker's. Taken for one: a walk
 * that meets a structure every machine has and reaches type 127, or that passes three structures,
 * three quarters of them of published types. Text fails at once, for want of two NULs in a row.
 *
 * Returns: how sure, 0 to 100
 */
int
lid_smbios_table_sniff (LidBytes table)
{
  LidSmbiosWalk walk;
  LidSmbiosStructure structure;
  guint n = 0, known = 0, telling = 0;

  lid_smbios_table_walk (&walk, table);
  while (lid_smbios_table_next (&walk, &structure))
    {
      n++;
      known += structure.type <= 46;
      telling += speaks_of_machine (structure.type);
    }
  if (walk.end == LID_SMBIOS_END_MARK && telling > 0)
    return 80;
  if (n >= 3 && telling > 0 && known * 4 >= n * 3)
    return 60;
  return n > 0 && telling == n && walk.end != LID_SMBIOS_END_LENGTH ? 20 : 0;
}
