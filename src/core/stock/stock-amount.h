/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#define LID_STOCK_MAX_AMOUNT G_GINT64_CONSTANT (1000000000000) /* minor units */

typedef enum
{
  LID_STOCK_AMOUNT_READ,
  LID_STOCK_AMOUNT_EMPTY,     /* nothing is written there */
  LID_STOCK_AMOUNT_AMBIGUOUS, /* 1,234: the decimal mark has to be told */
  LID_STOCK_AMOUNT_FRACTION,  /* finer than the minor unit */
  LID_STOCK_AMOUNT_LARGE,
  LID_STOCK_AMOUNT_CURRENCY, /* another currency than the file's */
  LID_STOCK_AMOUNT_BAD,
} LidStockAmountFound;

/* How amounts of a file are written. */
typedef struct
{
  char mark;            /* '.' or ','; 0: not told */
  guint digits;         /* of the minor unit */
  const char *currency; /* nullable: a sign or code beside an amount is refused */
} LidStockMoney;

LidStockAmountFound
lid_stock_amount_read (const char *text, const LidStockMoney *money, gint64 *minor, char *implied);
guint lid_stock_amount_digits (const char *currency);
gboolean lid_stock_amount_is_currency (const char *word);
const char *lid_stock_amount_code (const char *word);
char *lid_stock_amount_to_text (gint64 minor, const char *currency);
