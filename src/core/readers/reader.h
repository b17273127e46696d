/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/bytes.h"
#include "inventory/inventory.h"

/* What a reader is. A new one is one file and one line in readers.c. */
typedef struct
{
  const char *id;    /* "smbios", "report" */
  const char *title; /* for people, translatable with N_() */
  /* How sure it is that the bytes are its own: 0 not at all, 100 certain. Must not read past
   * bytes.size and must be quick: it looks at marks, it does not parse. */
  int (*sniff) (LidBytes bytes);
  /* Fills the inventory as far as the bytes go; what cannot be read becomes a remark. FALSE with
   * an error only if nothing at all could be read. */
  gboolean (*read) (LidBytes bytes, LidInventory *inventory, GError **error);
} LidReader;

extern const LidReader lid_reader_smbios;
extern const LidReader lid_reader_report;
