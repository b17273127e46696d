/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/bytes.h"

/* One structure of the table: DMTF DSP0134, 6.1. */
typedef struct
{
  guint8 type;
  gint32 handle;
  LidBytes fields;  /* the formatted part, its four-byte header included */
  LidBytes strings; /* the set, without the closing NUL */
} LidSmbiosStructure;

typedef enum
{
  LID_SMBIOS_END_MARK,   /* type 127 */
  LID_SMBIOS_END_SIZE,   /* the table ended between two structures, without type 127 */
  LID_SMBIOS_END_CUT,    /* it ended inside a structure */
  LID_SMBIOS_END_LENGTH, /* a structure shorter than its own header: the walk cannot go on */
} LidSmbiosEnd;

typedef struct
{
  LidBytes table;
  gsize at;          /* of the next structure */
  LidSmbiosEnd end;  /* why lid_smbios_table_next() gave none */
  gint32 cut_handle; /* of the structure it ended in, LID_HANDLE_NONE if not known */
} LidSmbiosWalk;

/* What an entry point says. */
typedef struct
{
  gsize size;          /* of the entry point itself */
  gsize table_at;      /* where it says the table is: an address, or a place in a dump file */
  gsize table_size;    /* an upper bound in the 64-bit form */
  gboolean odd_length; /* its sum is right over another length than the one it states */
  gboolean odd_inner;  /* the sum of its second part is wrong */
} LidSmbiosEntry;

gboolean lid_smbios_table_entry (LidBytes bytes, LidSmbiosEntry *entry, GError **error);
gboolean lid_smbios_table_is_entry (LidBytes bytes);
void lid_smbios_table_walk (LidSmbiosWalk *walk, LidBytes table);
gboolean lid_smbios_table_next (LidSmbiosWalk *walk, LidSmbiosStructure *structure);
gboolean
lid_smbios_table_string (const LidSmbiosStructure *structure, gsize offset, LidBytes *string);
int lid_smbios_table_sniff (LidBytes table);
