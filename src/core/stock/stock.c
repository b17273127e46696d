/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stock.c — a stock file to rows.
 *
 * What a row says is taken or the row is kept out with its line and one sentence; nothing is
 * guessed. What would make every amount wrong (no currency, decimal marks that contradict each
 * other) stops the reading, because somebody has to answer it once. Many rows say the same in
 * label and part: each text is read once. */
#include "stock/stock.h"

#include "base/error.h"
#include "base/text.h"
#include "facts/label.h"
#include "stock/stock-amount.h"
#include "stock/stock-header.h"
#include "stock/stock-row.h"
#include "stock/stock-text.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <string.h>

void
lid_stock_row_free (LidStockRow *row)
{
  if (row == NULL)
    return;
  lid_module_unref (row->module);
  g_free (row->part);
  g_free (row->label);
  g_free (row->bin);
  g_free (row);
}

/**
 * lid_stock_row_free_count:
 *
 * Returns: how many of the row's modules are reserved for nobody
 */
guint
lid_stock_row_free_count (const LidStockRow *row)
{
  return row->quantity > row->reserved ? row->quantity - row->reserved : 0;
}

static void
complaint_free (gpointer data)
{
  LidStockComplaint *complaint = data;

  g_free (complaint->text);
  g_free (complaint);
}

void
lid_stock_free (LidStock *stock)
{
  if (stock == NULL)
    return;
  g_ptr_array_unref (stock->rows);
  g_ptr_array_unref (stock->complaints);
  g_free (stock->currency);
  g_free (stock->no_price);
  g_free (stock);
}

static LidStock *
stock_new (const LidStockHeader *header)
{
  LidStock *stock = g_new0 (LidStock, 1);

  stock->rows = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_stock_row_free);
  stock->complaints = g_ptr_array_new_with_free_func (complaint_free);
  if (header->currency[0] != 0)
    {
      stock->currency = g_strdup (header->currency);
      stock->digits = lid_stock_amount_digits (stock->currency);
    }
  return stock;
}

/* Takes the text. */
static void
complain (LidStock *stock, guint line, char *text)
{
  LidStockComplaint *complaint;

  stock->n_complaints++;
  if (stock->complaints->len >= LID_STOCK_MAX_COMPLAINTS)
    {
      g_free (text);
      return;
    }
  complaint = g_new0 (LidStockComplaint, 1);
  complaint->line = line;
  complaint->text = lid_text_one_line (text);
  g_free (text);
  g_ptr_array_add (stock->complaints, complaint);
}

/* Two amounts that can be read only with different decimal marks: one of them is wrong, and nobody
 * can tell which. */
static gboolean
check_marks (LidStockReading *reading, guint line, GError **error)
{
  char implied = reading->implied;

  reading->implied = 0;
  if (implied == 0 || reading->header->decimal != 0)
    return TRUE;
  if (reading->first_mark == 0)
    {
      reading->first_mark = implied;
      reading->first_line = line;
    }
  if (reading->first_mark == implied)
    return TRUE;
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
               _ ("lines %u and %u write amounts with different decimal marks; declare the right "
                  "one in the heading, as in “price EUR 0,00”, or tell it once (--decimal comma or "
                  "point)"),
               reading->first_line, line);
  return FALSE;
}

static gboolean
check_currency (const LidStock *stock, const LidStockReading *reading, guint line, GError **error)
{
  if (stock->currency != NULL || !reading->priced)
    return TRUE;
  g_set_error (
      error, LID_ERROR, LID_ERROR_BAD_CALL,
      _ ("line %u: an amount of money, and no currency is told; declare it in the heading, "
         "as in “price EUR 0,00”, or tell it once (--currency EUR)"),
      line);
  return FALSE;
}

static gboolean
take_record (LidStock *stock,
             LidStockReading *reading,
             const LidStockRecord *record,
             GError **error)
{
  g_autofree char *why = NULL;
  LidStockRow *row = lid_stock_row_read (reading, record, &why);

  if (!check_currency (stock, reading, record->line, error)
      || !check_marks (reading, record->line, error))
    {
      lid_stock_row_free (row);
      return FALSE;
    }
  if (row != NULL)
    g_ptr_array_add (stock->rows, row);
  else if (why != NULL)
    complain (stock, record->line, g_steal_pointer (&why));
  if (stock->rows->len <= LID_STOCK_MAX_ROWS)
    return TRUE;
  g_set_error (error, LID_ERROR, LID_ERROR_TOO_LARGE, _ ("line %u: more than %u rows"),
               record->line, LID_STOCK_MAX_ROWS);
  return FALSE;
}

static gboolean
take_rows (LidStock *stock, LidStockReading *reading, LidStockCsv csv, GError **error)
{
  g_auto (LidStockRecord) record;
  LidStockCsvFound found;

  lid_stock_csv_record_init (&record);
  while ((found = lid_stock_csv_next (&csv, &record)) != LID_STOCK_CSV_END)
    if (found == LID_STOCK_CSV_OPEN_QUOTE)
      complain (stock, record.line,
                g_strdup (_ ("a quotation mark is opened here and closed nowhere; close it, or "
                             "double one that belongs to the text")));
    else if (found == LID_STOCK_CSV_BEHIND_QUOTE)
      complain (stock, record.line,
                g_strdup (_ ("text stands behind a closing quotation mark; double the marks that "
                             "belong to the text")));
    else if (found == LID_STOCK_CSV_MANY_FIELDS)
      complain (stock, record.line,
                g_strdup_printf (_ ("more than %u fields"), LID_STOCK_MAX_FIELDS));
    else if (!record.blank && !take_record (stock, reading, &record, error))
      return FALSE;
  return TRUE;
}

static LidStock *
parse (const char *bytes, gsize size, const LidStockOptions *options, GError **error)
{
  gboolean assumed;
  g_autofree char *text = lid_stock_text_decode (bytes, size, &size, &assumed, error);
  g_autoptr (LidStock) stock = NULL;
  g_auto (LidStockReading) reading;
  LidStockHeader header = { .no_price = NULL };

  lid_stock_row_reading_init (&reading, &header, options->parts);
  if (text == NULL || !lid_stock_header_read (text, size, options, &header, error))
    {
      g_free (header.no_price);
      return NULL;
    }
  stock = stock_new (&header);
  stock->no_price = header.no_price;
  if (!take_rows (stock, &reading, header.csv, error))
    return NULL;
  stock->assumed = assumed;
  stock->n_ambiguous = reading.n_ambiguous;
  return g_steal_pointer (&stock);
}

/**
 * lid_stock_parse:
 * @bytes: a stock file's bytes
 * @size: how many
 * @options: (nullable): what a person told, and the parts memory
 * @error: one sentence with line and remedy. LID_ERROR_BAD_CALL: something has to be told first:
 *   the currency, or the decimal mark
 *
 * Rows that cannot be read are among the complaints, the others are used.
 *
 * Returns: (transfer full) (nullable): the stock
 */
LidStock *
lid_stock_parse (const char *bytes, gsize size, const LidStockOptions *options, GError **error)
{
  static const LidStockOptions none;
  g_autoptr (GError) inner = NULL;
  LidStock *stock = parse (bytes, size, options != NULL ? options : &none, &inner);

  if (stock == NULL)
    {
      /* What is quoted of the file may hold anything, and be cut through a letter. */
      g_autofree char *text = lid_text_one_line (inner->message);

      g_set_error_literal (error, inner->domain, inner->code, text);
    }
  return stock;
}

/**
 * lid_stock_assumed_words:
 *
 * Returns: (transfer none): what to say of a stock whose encoding was assumed, one sentence
 */
const char *
lid_stock_assumed_words (void)
{
  return _ ("The file is not in UTF-8 and was read as Windows-1252: look at letters beyond A to Z, "
            "or save the sheet as CSV in UTF-8.");
}

/* Up to one byte more than a stock may have, so that it shows. */
static char *
load (const char *path, gsize *size, GError **error)
{
  g_autoptr (GFile) file = g_file_new_for_path (strcmp (path, "-") == 0 ? "/dev/stdin" : path);
  g_autoptr (GFileInputStream) stream = g_file_read (file, NULL, error);
  g_autofree char *bytes = NULL;

  if (stream == NULL)
    return NULL;
  bytes = g_malloc (LID_STOCK_MAX_BYTES + 1);
  if (g_input_stream_read_all (G_INPUT_STREAM (stream), bytes, LID_STOCK_MAX_BYTES + 1, size, NULL,
                               error))
    return g_steal_pointer (&bytes);
  g_prefix_error (error, "%s: ", path);
  return NULL;
}

/**
 * lid_stock_read:
 * @path: a stock file, or "-" for standard input; it is never written to
 * @options: (nullable): as for lid_stock_parse()
 * @error: as for lid_stock_parse(), with the file's name before it
 *
 * Reservations are not looked at: lid_reserved_apply().
 *
 * Returns: (transfer full) (nullable): the stock
 */
LidStock *
lid_stock_read (const char *path, const LidStockOptions *options, GError **error)
{
  gsize size = 0;
  g_autofree char *bytes = load (path, &size, error);
  LidStock *stock;

  if (bytes == NULL)
    return NULL;
  if (size > LID_STOCK_MAX_BYTES)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_TOO_LARGE, _ ("%s: larger than %u MiB, so no stock"),
                   path, LID_STOCK_MAX_BYTES / (1024u * 1024u));
      return NULL;
    }
  stock = lid_stock_parse (bytes, size, options, error);
  if (stock == NULL)
    g_prefix_error (error, "%s: ", path);
  return stock;
}
