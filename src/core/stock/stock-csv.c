/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stock-csv.c — RFC 4180, section 2, read forgivingly where nothing is lost by it: a quote inside
 * an unquoted field is itself (the RFC leaves it open), the last line needs no end. A quote that is
 * never closed, or only by one that opens another field lines below, costs its own line, not the
 * rest of the file. */
#include "stock/stock-csv.h"

#include <string.h>

/**
 * lid_stock_csv_start:
 * @csv: (out): where reading stands
 * @text: UTF-8 without NUL
 * @size: its bytes
 * @separator: between fields
 * @line: the number of the first line
 */
void
lid_stock_csv_start (LidStockCsv *csv, const char *text, gsize size, char separator, guint line)
{
  *csv = (LidStockCsv){ text, text + size, separator, line };
}

void
lid_stock_csv_record_init (LidStockRecord *record)
{
  *record = (LidStockRecord){ g_string_new (NULL), g_array_new (FALSE, FALSE, sizeof (gsize)), 0,
                              FALSE };
}

void
lid_stock_csv_record_clear (LidStockRecord *record)
{
  g_string_free (record->text, TRUE);
  g_array_unref (record->starts);
}

/**
 * lid_stock_csv_field:
 *
 * Returns: (transfer none): the field's text; empty where the record has fewer fields
 */
const char *
lid_stock_csv_field (const LidStockRecord *record, guint field)
{
  return field < record->starts->len
             ? record->text->str + g_array_index (record->starts, gsize, field)
             : "";
}

/* At a line end: CRLF, LF or CR. */
static gboolean
take_line_end (LidStockCsv *csv)
{
  if (csv->at == csv->end || (*csv->at != '\n' && *csv->at != '\r'))
    return FALSE;
  if (*csv->at == '\r' && csv->at + 1 < csv->end && csv->at[1] == '\n')
    csv->at++;
  csv->at++;
  csv->line++;
  return TRUE;
}

/* Behind the opening quote. Line ends inside are kept as one LF each. */
static gboolean
take_quoted (LidStockCsv *csv, GString *text)
{
  while (csv->at < csv->end)
    {
      if (*csv->at == '"' && csv->at + 1 < csv->end && csv->at[1] == '"')
        csv->at++;
      else if (*csv->at == '"')
        {
          csv->at++;
          return TRUE;
        }
      if (take_line_end (csv))
        g_string_append_c (text, '\n');
      else
        g_string_append_c (text, *csv->at++);
    }
  return FALSE;
}

static gboolean
at_stop (const LidStockCsv *csv)
{
  return csv->at == csv->end || *csv->at == csv->separator || *csv->at == '\n' || *csv->at == '\r';
}

static void
take_plain (LidStockCsv *csv, GString *text)
{
  const char *start = csv->at;

  while (!at_stop (csv))
    csv->at++;
  g_string_append_len (text, start, csv->at - start);
}

static void
skip_line (LidStockCsv *csv)
{
  while (csv->at < csv->end && *csv->at != '\n' && *csv->at != '\r')
    csv->at++;
  take_line_end (csv);
}

/* A field; blanks around a quoted one are no part of it. */
static LidStockCsvFound
take_field (LidStockCsv *csv, GString *text)
{
  const char *start = csv->at;

  while (csv->at < csv->end && *csv->at == ' ')
    csv->at++;
  if (csv->at == csv->end || *csv->at != '"')
    {
      csv->at = start;
      take_plain (csv, text);
      return LID_STOCK_CSV_RECORD;
    }
  csv->at++;
  if (!take_quoted (csv, text))
    return LID_STOCK_CSV_OPEN_QUOTE;
  while (csv->at < csv->end && *csv->at == ' ')
    csv->at++;
  if (at_stop (csv))
    return LID_STOCK_CSV_RECORD;
  take_plain (csv, text);
  return LID_STOCK_CSV_BEHIND_QUOTE;
}

/**
 * lid_stock_csv_next:
 * @csv: where reading stands
 * @record: the record to fill
 *
 * Whatever was found, reading can go on: behind the record, or behind the line that opened a quote.
 *
 * Returns: what was found; the record's line is good in every case but the end
 */
LidStockCsvFound
lid_stock_csv_next (LidStockCsv *csv, LidStockRecord *record)
{
  LidStockCsvFound found = LID_STOCK_CSV_RECORD, here;
  LidStockCsv start = *csv;

  if (csv->at == csv->end)
    return LID_STOCK_CSV_END;
  g_string_truncate (record->text, 0);
  g_array_set_size (record->starts, 0);
  record->line = csv->line;
  record->blank = *csv->at == '\n' || *csv->at == '\r';
  for (;;)
    {
      gsize at = record->text->len;

      here = take_field (csv, record->text);
      if (here == LID_STOCK_CSV_OPEN_QUOTE
          || (here == LID_STOCK_CSV_BEHIND_QUOTE && csv->line > start.line))
        {
          *csv = start;
          skip_line (csv);
          return LID_STOCK_CSV_OPEN_QUOTE;
        }
      found = here != LID_STOCK_CSV_RECORD ? here : found;
      if (record->starts->len < LID_STOCK_MAX_FIELDS)
        g_array_append_val (record->starts, at);
      else
        found = LID_STOCK_CSV_MANY_FIELDS;
      g_string_append_c (record->text, 0);
      if (csv->at == csv->end || take_line_end (csv))
        return found;
      csv->at++;
    }
}
