/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* Records of a text in UTF-8, as RFC 4180 has them: fields in quotes may hold separators, doubled
 * quotes and line ends; lines end in CRLF or LF (a lone CR too, as old programs write it). */
typedef struct
{
  const char *at;
  const char *end;
  char separator;
  guint line; /* of @at, from 1 */
} LidStockCsv;

#define LID_STOCK_MAX_FIELDS 256u

/* One record. Its fields are good until the next is read. */
typedef struct
{
  GString *text;  /* the fields, each with its NUL */
  GArray *starts; /* gsize */
  guint line;     /* where it begins */
  gboolean blank; /* nothing at all between the line ends */
} LidStockRecord;

typedef enum
{
  LID_STOCK_CSV_END,
  LID_STOCK_CSV_RECORD,
  LID_STOCK_CSV_OPEN_QUOTE,   /* a quote is opened in this line and closed nowhere */
  LID_STOCK_CSV_BEHIND_QUOTE, /* text between a closing quote and the separator */
  LID_STOCK_CSV_MANY_FIELDS,
} LidStockCsvFound;

void
lid_stock_csv_start (LidStockCsv *csv, const char *text, gsize size, char separator, guint line);
LidStockCsvFound lid_stock_csv_next (LidStockCsv *csv, LidStockRecord *record);
void lid_stock_csv_record_init (LidStockRecord *record);
void lid_stock_csv_record_clear (LidStockRecord *record);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (LidStockRecord, lid_stock_csv_record_clear)
const char *lid_stock_csv_field (const LidStockRecord *record, guint field);
