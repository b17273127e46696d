/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* Foreign bytes, borrowed. Every read is bounded; nothing here trusts a length found inside. */
typedef struct
{
  const guint8 *data;
  gsize size;
} LidBytes;

gboolean lid_bytes_u8 (LidBytes bytes, gsize at, guint8 *out);
gboolean lid_bytes_u16 (LidBytes bytes, gsize at, guint16 *out);
gboolean lid_bytes_u32 (LidBytes bytes, gsize at, guint32 *out);
gboolean lid_bytes_u64 (LidBytes bytes, gsize at, guint64 *out);
gboolean lid_bytes_slice (LidBytes bytes, gsize at, gsize size, LidBytes *out);
guint8 lid_bytes_sum (LidBytes bytes);
gboolean lid_bytes_starts (LidBytes bytes, const char *magic, gsize length);
