/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stock-header.c — the first row of a stock file: names of columns in any order, in English, German
 * or French (common practice, no source), and with price and
 * credit the currency and the decimal mark the amounts are written in ("price EUR 0,00", "price
 * (EUR, decimal comma)"). The separator is told by a line "sep=;", as spreadsheets write it, or is
 * the one of comma, semicolon and tab by which the row holds most of our names. */
#include "stock/stock-header.h"

#include "base/error.h"
#include "stock/stock-amount.h"
#include "stock/stock-names.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* The heading with blanks of any kind made single; free it. */
static char *
single_blanks (const char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *at = text; *at != 0; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (!g_unichar_isspace (c))
        g_string_append_unichar (out, c);
      else if (out->len > 0 && out->str[out->len - 1] != ' ')
        g_string_append_c (out, ' ');
    }
  if (out->len > 0 && out->str[out->len - 1] == ' ')
    g_string_truncate (out, out->len - 1);
  return g_string_free (out, FALSE);
}

static char *
plain_heading (const char *text)
{
  g_autofree char *low = g_utf8_strdown (text, -1);

  return single_blanks (low);
}

/* "0,00", "0.00", "1.234,00": what it says of the decimal mark; 0: it is no sample. */
static char
sample_mark (const char *word)
{
  LidStockMoney money = { 0, 6, NULL };
  gint64 minor;
  char implied;

  if (!g_ascii_isdigit (*word)
      || lid_stock_amount_read (word, &money, &minor, &implied) != LID_STOCK_AMOUNT_READ)
    return 0;
  return implied;
}

static gboolean
refuse_word (const char *heading, const char *word, GError **error)
{
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT,
               _ ("line 1: in the heading “%.60s” “%.30s” is not understood; write it like “price "
                  "EUR 0,00” or “price EUR 0.00”, in quotes where commas part the columns"),
               heading, word);
  return FALSE;
}

static gboolean
refuse_twice (const char *heading, GError **error)
{
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT,
               _ ("line 1: the heading “%.60s” says another currency or decimal mark than what was "
                  "told before it; a stock file has one of each"),
               heading);
  return FALSE;
}

static gboolean
set_mark (LidStockHeader *header, char mark, const char *heading, GError **error)
{
  if (header->decimal != 0 && header->decimal != mark)
    return refuse_twice (heading, error);
  header->decimal = mark;
  return TRUE;
}

static gboolean
set_currency (LidStockHeader *header, const char *code, const char *heading, GError **error)
{
  if (header->currency[0] != 0 && g_ascii_strcasecmp (header->currency, code) != 0)
    return refuse_twice (heading, error);
  for (guint i = 0; i < 3; i++)
    header->currency[i] = g_ascii_toupper (code[i]);
  return TRUE;
}

static gboolean
read_money_word (LidStockHeader *header, const char *word, const char *heading, GError **error)
{
  static const char *const idle[]
      = { "",         "price",      "credit",      "in",        "each",    "unit",
          "decimal",  "stückpreis", "einzelpreis", "rücknahme", "reprise", "mark",
          "preis",    "gutschrift", "je",          "stück",     "prix",    "avoir",
          "unitaire", "décimale",   "en",          NULL };
  static const char *const commas[] = { "comma", "komma", "dezimalkomma", "virgule", NULL };
  static const char *const points[] = { "point", "punkt", "dezimalpunkt", NULL };
  g_autofree char *low = g_utf8_strdown (word, -1);
  char mark = sample_mark (word);

  if (g_strv_contains (idle, low) || low[strspn (low, "0123456789")] == 0)
    return TRUE;
  if (mark == 0 && g_strv_contains (commas, low))
    mark = ',';
  if (mark == 0 && g_strv_contains (points, low))
    mark = '.';
  if (mark != 0)
    return set_mark (header, mark, heading, error);
  if (lid_stock_amount_code (word) != NULL)
    return set_currency (header, lid_stock_amount_code (word), heading, error);
  if (lid_stock_amount_is_currency (word))
    return set_currency (header, word, heading, error);
  return refuse_word (heading, word, error);
}

static gboolean
read_money_heading (LidStockHeader *header, const char *heading, GError **error)
{
  g_autofree char *plain = single_blanks (heading);
  g_auto (GStrv) words = g_strsplit_set (plain, " ()[]/:;", -1);

  for (guint i = 0; words[i] != NULL; i++)
    {
      gsize n = strlen (words[i]);

      if (n > 0 && words[i][n - 1] == ',')
        words[i][n - 1] = 0;
      if (!read_money_word (header, words[i], heading, error))
        return FALSE;
    }
  return TRUE;
}

static guint
count_names (const LidStockRecord *record)
{
  guint n = 0;

  for (guint i = 0; i < record->starts->len; i++)
    {
      g_autofree char *heading = plain_heading (lid_stock_csv_field (record, i));
      gboolean other;

      n += lid_stock_names_find (heading, &other) != LID_STOCK_N_COLUMNS;
    }
  return n;
}

/* Empty lines above the headings are nobody's row. */
static void
skip_empty_lines (LidStockCsv *csv)
{
  for (; csv->at < csv->end && (*csv->at == '\n' || *csv->at == '\r'); csv->line++)
    csv->at += *csv->at == '\r' && csv->at + 1 < csv->end && csv->at[1] == '\n' ? 2 : 1;
}

/* A first line "sep=;" names the separator itself. */
static gboolean
take_sep_line (LidStockCsv *csv)
{
  if (csv->end - csv->at < 5 || g_ascii_strncasecmp (csv->at, "sep=", 4) != 0)
    return FALSE;
  csv->separator = csv->at[4];
  csv->at += 5;
  while (csv->at < csv->end && *csv->at != '\n' && *csv->at != '\r')
    csv->at++;
  skip_empty_lines (csv);
  return TRUE;
}

static gboolean
find_header_row (LidStockHeader *header, LidStockRecord *record, GError **error)
{
  static const char separators[] = { ',', ';', '\t' };
  LidStockCsv start = header->csv, best;
  gboolean told;
  guint most = 0;

  skip_empty_lines (&start);
  told = take_sep_line (&start);
  best = start;
  for (guint i = 0; i < (told ? 1 : G_N_ELEMENTS (separators)); i++)
    {
      LidStockCsv csv = start;
      guint n;

      csv.separator = told ? start.separator : separators[i];
      n = lid_stock_csv_next (&csv, record) == LID_STOCK_CSV_RECORD ? count_names (record) : 0;
      if (n > most)
        {
          most = n;
          best = start;
          best.separator = csv.separator;
        }
    }
  header->csv = best;
  if (most > 0 && lid_stock_csv_next (&header->csv, record) == LID_STOCK_CSV_RECORD)
    return TRUE;
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT,
               _ ("line %u: no stock file: its first row has to name the columns: part, label, "
                  "quantity, price, bin, parted by commas, semicolons or tabs"),
               start.line);
  return FALSE;
}

static gboolean
read_column (
    LidStockHeader *header, const LidStockRecord *record, guint i, gboolean others, GError **error)
{
  const char *text = lid_stock_csv_field (record, i);
  g_autofree char *heading = plain_heading (text);
  gboolean other;
  LidStockColumn column = lid_stock_names_find (heading, &other);

  if (column == LID_STOCK_N_COLUMNS || other != others || (other && header->column[column] >= 0))
    return TRUE;
  if (header->column[column] >= 0)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT,
                   _ ("line %u: two columns are headed like “%.60s”; leave one of them"),
                   record->line, heading);
      return FALSE;
    }
  header->column[column] = (int)i;
  return (column != LID_STOCK_PRICE && column != LID_STOCK_CREDIT)
         || read_money_heading (header, text, error);
}

/* A shelf without prices is one; a column of prices that nobody understood is not to be passed
 * over. */
static void
look_for_price (LidStockHeader *header, const LidStockRecord *record)
{
  g_autoptr (GString) unknown = g_string_new (NULL);

  for (guint i = 0; i < record->starts->len && header->column[LID_STOCK_PRICE] < 0; i++)
    {
      g_autofree char *heading = plain_heading (lid_stock_csv_field (record, i));
      gboolean other;

      if (*heading != 0 && lid_stock_names_find (heading, &other) == LID_STOCK_N_COLUMNS)
        g_string_append_printf (unknown, "%s“%.60s”", unknown->len > 0 ? ", " : "", heading);
    }
  if (unknown->len > 0)
    header->no_price = g_strdup_printf (
        _ ("No column is headed “price”, so no row has one. Columns that are not used: %s."),
        unknown->str);
}

static gboolean
read_columns (LidStockHeader *header, const LidStockRecord *record, GError **error)
{
  header->n_fields = record->starts->len;
  for (guint i = 0; i < LID_STOCK_N_COLUMNS; i++)
    header->column[i] = -1;
  for (guint others = 0; others < 2; others++)
    for (guint i = 0; i < record->starts->len; i++)
      if (!read_column (header, record, i, others == 1, error))
        return FALSE;
  look_for_price (header, record);
  if (header->column[LID_STOCK_LABEL] >= 0 || header->column[LID_STOCK_PART] >= 0)
    return TRUE;
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT,
               _ ("line %u: no column says what the modules are: head one “label” or “part”"),
               record->line);
  return FALSE;
}

/**
 * lid_stock_header_read:
 * @text: the file, UTF-8 without NUL and byte order mark
 * @size: its bytes
 * @options: what a person told
 * @header: (out): columns and declarations, and where the rows begin
 * @error: LID_ERROR_BAD_FORMAT: one sentence with the line and the remedy
 *
 * Returns: whether the first row is a header of ours
 */
gboolean
lid_stock_header_read (const char *text,
                       gsize size,
                       const LidStockOptions *options,
                       LidStockHeader *header,
                       GError **error)
{
  g_auto (LidStockRecord) record;

  lid_stock_csv_record_init (&record);
  memset (header, 0, sizeof *header);
  header->decimal = options->decimal;
  if (options->currency != NULL)
    {
      if (!lid_stock_amount_is_currency (options->currency))
        {
          g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                       _ ("a currency is told by its three letters, as in EUR, not “%.20s”"),
                       options->currency);
          return FALSE;
        }
      set_currency (header, options->currency, "", NULL);
    }
  lid_stock_csv_start (&header->csv, text, size, ',', 1);
  return find_header_row (header, &record, error) && read_columns (header, &record, error);
}
