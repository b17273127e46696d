/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "facts/parts.h"

/* The shelf: a CSV file (RFC 4180), read and never written. The README says what its headings may
 * be; amounts are integers in the minor unit of one currency a file. */

#define LID_STOCK_MAX_BYTES (64u * 1024u * 1024u)
#define LID_STOCK_MAX_ROWS 1000000u
#define LID_STOCK_MAX_QUANTITY 1000000u
#define LID_STOCK_MAX_COMPLAINTS 1000u /* told one by one; further ones are counted */
#define LID_STOCK_NOT_TOLD (-1)

typedef struct
{
  LidModule *module;   /* owned reference; rows that say the same share it; facts only: no bin */
  char *part;          /* nullable */
  char *label;         /* as written in the file, nullable */
  char *bin;           /* nullable */
  guint quantity;      /* at least 1 */
  gint64 price_minor;  /* of one; LID_STOCK_NOT_TOLD */
  gint64 credit_minor; /* what the shop gives for one taken back; LID_STOCK_NOT_TOLD */
  guint line;          /* where the row begins in the file, from 1 */
  guint reserved;      /* of the quantity, for other jobs; at most the quantity */
} LidStockRow;

/* A row that is kept out, and why: one sentence. */
typedef struct
{
  guint line;
  char *text;
} LidStockComplaint;

typedef struct
{
  GPtrArray *rows;       /* LidStockRow, in the file's order */
  char *currency;        /* ISO 4217 letters; NULL: no row has a price */
  guint digits;          /* of the minor unit: 2 for cents */
  GPtrArray *complaints; /* LidStockComplaint, in the file's order */
  guint n_complaints;    /* of all, also those not told one by one */
  gboolean assumed;      /* read as Windows-1252, because it is no UTF-8 and says nothing */
  char *no_price;        /* a sentence: prices may stand in a column not understood; nullable */
  guint n_ambiguous;     /* of them: amounts that a declared decimal mark would settle */
} LidStock;

/* What the file may leave open and a person answers once. What file and answer both tell must
 * agree. */
typedef struct
{
  char decimal;          /* '.' or ','; 0: as the file says */
  const char *currency;  /* nullable: as the file says */
  const LidParts *parts; /* nullable: the user's parts memory */
} LidStockOptions;

LidStock *lid_stock_read (const char *path, const LidStockOptions *options, GError **error);
LidStock *
lid_stock_parse (const char *bytes, gsize size, const LidStockOptions *options, GError **error);
void lid_stock_free (LidStock *stock);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidStock, lid_stock_free)
void lid_stock_row_free (LidStockRow *row);
const char *lid_stock_assumed_words (void);
guint lid_stock_row_free_count (const LidStockRow *row);

/* stock-reduce.c */
typedef struct
{
  LidModule *module; /* borrowed from the cheapest row */
  GPtrArray *rows;   /* LidStockRow, borrowed: the cheapest first, without a price last */
  guint64 quantity;  /* not reserved, of all its rows, also those left out */
} LidStockKind;

GPtrArray *lid_stock_reduce (const LidStock *stock, guint most);
