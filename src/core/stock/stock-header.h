/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "stock/stock-csv.h"
#include "stock/stock.h"

/* Private to the stock's reader: which column is what, and what the headings declare. */
typedef enum
{
  LID_STOCK_PART,
  LID_STOCK_LABEL,
  LID_STOCK_QUANTITY,
  LID_STOCK_PRICE,
  LID_STOCK_CREDIT,
  LID_STOCK_BIN,
  LID_STOCK_N_COLUMNS
} LidStockColumn;

typedef struct
{
  int column[LID_STOCK_N_COLUMNS]; /* field of a record; -1: there is none */
  guint n_fields;
  char decimal;     /* '.' or ','; 0: not declared */
  char currency[4]; /* empty: not declared */
  char *no_price;   /* owned by whoever reads it: a sentence, where a price may stand in a column
                       nobody understood; else NULL */
  LidStockCsv csv;  /* behind the header row */
} LidStockHeader;

gboolean lid_stock_header_read (const char *text,
                                gsize size,
                                const LidStockOptions *options,
                                LidStockHeader *header,
                                GError **error);
