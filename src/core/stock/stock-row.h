/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "stock/stock-header.h"

/* Private to the stock's reader: one record to one row. */
typedef struct
{
  const LidStockHeader *header;
  const LidParts *parts; /* nullable */
  GHashTable *labels;    /* label -> what it says alone, owned */
  GHashTable *known;     /* "label\npart" -> what was read of them, owned */
  guint n_ambiguous;     /* amounts a declared decimal mark would settle */
  gboolean priced;       /* an amount of money was met */
  char implied;          /* decimal mark the last record can only be read with; 0: none */
  char first_mark;       /* the first of them, and where */
  guint first_line;
} LidStockReading;

void lid_stock_row_reading_init (LidStockReading *reading,
                                 const LidStockHeader *header,
                                 const LidParts *parts);
void lid_stock_row_reading_clear (LidStockReading *reading);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (LidStockReading, lid_stock_row_reading_clear)
LidStockRow *
lid_stock_row_read (LidStockReading *reading, const LidStockRecord *record, char **why);
