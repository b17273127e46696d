/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "stock/stock.h"

/* What every command that reads a stock file asks once: its decimal mark and currency. */
extern char *lid_stock_option_decimal, *lid_stock_option_currency;

/* Rows of a command's own entries. */
#define LID_STOCK_OPTION_ENTRIES                                                                   \
  { "decimal",                                                                                     \
    0,                                                                                             \
    0,                                                                                             \
    G_OPTION_ARG_STRING,                                                                           \
    &lid_stock_option_decimal,                                                                     \
    N_ ("The decimal mark of the stock file's amounts, where its heading does not declare it"),    \
    "comma|point" },                                                                               \
  {                                                                                                \
    "currency", 0, 0, G_OPTION_ARG_STRING, &lid_stock_option_currency,                             \
        N_ ("The currency of the stock file, where its heading does not declare it"), N_ ("EUR")   \
  }

gboolean lid_stock_options_read (LidStockOptions *options);
void lid_stock_options_complain (const char *source, const LidStock *stock);
