/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/bytes.h"

#include <string.h>

static gboolean
inside (LidBytes bytes, gsize at, gsize size)
{
  return at <= bytes.size && size <= bytes.size - at;
}

gboolean
lid_bytes_u8 (LidBytes bytes, gsize at, guint8 *out)
{
  if (!inside (bytes, at, 1))
    return FALSE;
  *out = bytes.data[at];
  return TRUE;
}

/* All numbers are little-endian, as SMBIOS and SPD have them. */
gboolean
lid_bytes_u16 (LidBytes bytes, gsize at, guint16 *out)
{
  guint16 raw;

  if (!inside (bytes, at, sizeof raw))
    return FALSE;
  memcpy (&raw, bytes.data + at, sizeof raw);
  *out = GUINT16_FROM_LE (raw);
  return TRUE;
}

gboolean
lid_bytes_u32 (LidBytes bytes, gsize at, guint32 *out)
{
  guint32 raw;

  if (!inside (bytes, at, sizeof raw))
    return FALSE;
  memcpy (&raw, bytes.data + at, sizeof raw);
  *out = GUINT32_FROM_LE (raw);
  return TRUE;
}

gboolean
lid_bytes_u64 (LidBytes bytes, gsize at, guint64 *out)
{
  guint64 raw;

  if (!inside (bytes, at, sizeof raw))
    return FALSE;
  memcpy (&raw, bytes.data + at, sizeof raw);
  *out = GUINT64_FROM_LE (raw);
  return TRUE;
}

/**
 * lid_bytes_slice:
 * @bytes: where from
 * @at: first byte
 * @size: how many
 * @out: (out): the part, borrowing the same memory
 *
 * Returns: whether all of it is there
 */
gboolean
lid_bytes_slice (LidBytes bytes, gsize at, gsize size, LidBytes *out)
{
  if (!inside (bytes, at, size))
    return FALSE;
  out->data = bytes.data + at;
  out->size = size;
  return TRUE;
}

/**
 * lid_bytes_sum:
 *
 * Returns: the sum of all bytes modulo 256, as SMBIOS entry points use it
 */
guint8
lid_bytes_sum (LidBytes bytes)
{
  guint8 sum = 0;

  for (gsize i = 0; i < bytes.size; i++)
    sum = (guint8)(sum + bytes.data[i]);
  return sum;
}

gboolean
lid_bytes_starts (LidBytes bytes, const char *magic, gsize length)
{
  return bytes.size >= length && memcmp (bytes.data, magic, length) == 0;
}
