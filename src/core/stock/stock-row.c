/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stock/stock-row.h"

#include "base/text.h"
#include "facts/label.h"
#include "stock/stock-amount.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* What label and part of a row come to. */
typedef struct
{
  LidModule *module; /* NULL: they tell nothing, see why */
  guint quantity;    /* printed before the label, else 1 */
  char *why;
} Known;

static void
known_free (gpointer data)
{
  Known *known = data;

  lid_module_unref (known->module);
  g_free (known->why);
  g_free (known);
}

/**
 * lid_stock_row_reading_init:
 * @reading: (out): what reading a file keeps between its rows
 * @header: the file's header; borrowed, read when rows are
 * @parts: (nullable): the user's parts memory; borrowed
 */
void
lid_stock_row_reading_init (LidStockReading *reading,
                            const LidStockHeader *header,
                            const LidParts *parts)
{
  memset (reading, 0, sizeof *reading);
  reading->header = header;
  reading->parts = parts;
  reading->labels = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, known_free);
  reading->known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, known_free);
}

void
lid_stock_row_reading_clear (LidStockReading *reading)
{
  g_hash_table_unref (reading->labels);
  g_hash_table_unref (reading->known);
}

static const char *
cell (const LidStockReading *reading, const LidStockRecord *record, LidStockColumn column)
{
  int field = reading->header->column[column];

  return field >= 0 ? lid_stock_csv_field (record, (guint)field) : "";
}

/* What a person wrote into the shelf's file, not what is printed on the module: its weight is that
 * of the stock. */
static void
weigh_as_stock (LidModule *module)
{
  for (guint i = 0; i < LID_N_FACTS; i++)
    if (module->basis[i] != LID_BASIS_NONE)
      module->basis[i] = LID_BASIS_STOCK;
}

static gboolean
knows_anything (const LidModule *module)
{
  for (guint i = 0; i < LID_N_FACTS; i++)
    if (module->basis[i] != LID_BASIS_NONE)
      return TRUE;
  return FALSE;
}

/* What a label alone says: the module without its part, or why there is none. */
static Known *
read_label (const char *text)
{
  Known *known = g_new0 (Known, 1);
  g_autoptr (GError) error = NULL;
  LidLabel label;

  known->quantity = 1;
  if (*text == 0)
    known->module = lid_module_new ();
  else if (lid_label_parse (text, -1, &label, NULL, &error))
    {
      known->module = lid_label_facts_to_module (&label);
      known->quantity = label.quantity;
      g_clear_pointer (&known->module->serial, g_free); /* of one module, not of a row */
      weigh_as_stock (known->module);
    }
  else
    known->why = g_strdup_printf (_ ("label “%.60s”: %s"), text, error->message);
  return known;
}

/* The same with what is known of the part. */
static Known *
learn (const LidStockReading *reading, const Known *label, const char *part)
{
  Known *known = g_new0 (Known, 1);

  known->quantity = label->quantity;
  known->why = g_strdup (label->why);
  if (label->module == NULL)
    return known;
  known->module = lid_module_copy (label->module);
  if (*part != 0)
    lid_module_set_text (&known->module->part, part);
  if (reading->parts != NULL)
    lid_parts_apply (reading->parts, known->module);
  if (!knows_anything (known->module))
    {
      known->why = *part != 0
                       ? g_strdup_printf (_ ("nothing is known of the part “%.60s”; write its "
                                             "label into the row"),
                                          part)
                       : g_strdup (_ ("neither a label nor a part number"));
      g_clear_pointer (&known->module, lid_module_unref);
    }
  return known;
}

/* Many rows share a label, fewer a part: each label is read once. */
static const Known *
look_up (LidStockReading *reading, const char *text, const char *part)
{
  g_autofree char *key = g_strconcat (text, "\n", part, NULL);
  Known *known = g_hash_table_lookup (reading->known, key), *label;

  if (known != NULL)
    return known;
  label = g_hash_table_lookup (reading->labels, text);
  if (label == NULL)
    {
      label = read_label (text);
      g_hash_table_insert (reading->labels, g_strdup (text), label);
    }
  known = learn (reading, label, part);
  g_hash_table_insert (reading->known, g_steal_pointer (&key), known);
  return known;
}

/* @what is the heading the amount stands under. */
static char *
say_amount (LidStockReading *reading,
            LidStockAmountFound found,
            const char *what,
            const char *text,
            const char *currency)
{
  switch (found)
    {
    case LID_STOCK_AMOUNT_AMBIGUOUS:
      reading->n_ambiguous++;
      return g_strdup_printf (
          _ ("%s: “%.40s” can be read in two ways; declare the decimal mark in the "
             "heading, as in “price EUR 0,00”, or tell it once (--decimal comma "
             "or point)"),
          what, text);
    case LID_STOCK_AMOUNT_FRACTION:
      return g_strdup_printf (_ ("%s: “%.40s” is finer than the smallest coin of %s"), what, text,
                              currency);
    case LID_STOCK_AMOUNT_LARGE:
      return g_strdup_printf (_ ("%s: “%.40s” is too large"), what, text);
    case LID_STOCK_AMOUNT_CURRENCY:
      return g_strdup_printf (_ ("%s: “%.40s” names another currency than the file's (%s)"), what,
                              text, currency);
    case LID_STOCK_AMOUNT_READ:
    case LID_STOCK_AMOUNT_EMPTY:
    case LID_STOCK_AMOUNT_BAD:
    default:
      return g_strdup_printf (_ ("%s: “%.40s” is no amount"), what, text);
    }
}

/* Price or credit. An empty cell is not told, which is no fault. */
static gboolean
read_money (LidStockReading *reading,
            const LidStockRecord *record,
            LidStockColumn column,
            gint64 *minor,
            char **why)
{
  const LidStockHeader *header = reading->header;
  const char *currency = header->currency[0] != 0 ? header->currency : NULL;
  LidStockMoney money
      = { header->decimal, currency != NULL ? lid_stock_amount_digits (currency) : 0, currency };
  const char *text = cell (reading, record, column);
  char implied;
  LidStockAmountFound found = lid_stock_amount_read (text, &money, minor, &implied);

  if (found == LID_STOCK_AMOUNT_EMPTY)
    {
      *minor = LID_STOCK_NOT_TOLD;
      return TRUE;
    }
  reading->priced = TRUE;
  reading->implied = implied != 0 ? implied : reading->implied;
  if (found == LID_STOCK_AMOUNT_READ)
    return TRUE;
  *why = say_amount (reading, found, column == LID_STOCK_PRICE ? "price" : "credit", text,
                     currency != NULL ? currency : "");
  return FALSE;
}

static gboolean
read_quantity (LidStockReading *reading,
               const LidStockRecord *record,
               guint printed,
               gint64 *quantity,
               char **why)
{
  LidStockMoney plain = { reading->header->decimal, 0, NULL };
  const char *text = cell (reading, record, LID_STOCK_QUANTITY);
  char implied;
  LidStockAmountFound found = lid_stock_amount_read (text, &plain, quantity, &implied);

  if (found == LID_STOCK_AMOUNT_EMPTY)
    *quantity = printed;
  else if (found == LID_STOCK_AMOUNT_AMBIGUOUS)
    *why = say_amount (reading, found, "quantity", text, "");
  else if (found != LID_STOCK_AMOUNT_READ || *quantity > LID_STOCK_MAX_QUANTITY)
    *why = g_strdup_printf (_ ("the quantity “%.40s” is no whole number from 0 to %u"), text,
                            LID_STOCK_MAX_QUANTITY);
  else if (printed > 1 && *quantity != printed)
    *why = g_strdup_printf (_ ("the quantity is %.40s, and %u before the label; leave one of them"),
                            text, printed);
  return *why == NULL;
}

/* Fields behind the last heading: most often an amount with a comma, written without quotes. */
static gboolean
check_length (const LidStockReading *reading, const LidStockRecord *record, char **why)
{
  for (guint i = reading->header->n_fields; i < record->starts->len; i++)
    if (*lid_stock_csv_field (record, i) != 0)
      {
        *why = g_strdup_printf (
            _ ("%u fields under %u headings; put a text that holds the separator "
               "in quotation marks"),
            record->starts->len, reading->header->n_fields);
        return FALSE;
      }
  return TRUE;
}

static gboolean
is_empty (const LidStockRecord *record)
{
  for (guint i = 0; i < record->starts->len; i++)
    for (const char *at = lid_stock_csv_field (record, i); *at != 0; at = g_utf8_next_char (at))
      if (!g_unichar_isspace (g_utf8_get_char (at)))
        return FALSE;
  return TRUE;
}

/**
 * lid_stock_row_read:
 * @reading: what is kept between rows
 * @record: a record of the file
 * @why: (out) (transfer full) (nullable): why the row is kept out; NULL for a row without fault
 *
 * Returns: (transfer full) (nullable): the row; NULL also for an empty one and for a quantity of 0
 */
LidStockRow *
lid_stock_row_read (LidStockReading *reading, const LidStockRecord *record, char **why)
{
  g_autofree char *label = lid_text_clean (cell (reading, record, LID_STOCK_LABEL), -1);
  g_autofree char *part = lid_text_clean (cell (reading, record, LID_STOCK_PART), -1);
  gint64 quantity = 0, price, credit;
  const Known *known;
  LidStockRow *row;

  *why = NULL;
  if (is_empty (record) || !check_length (reading, record, why))
    return NULL;
  known = look_up (reading, label, part);
  if (known->module == NULL)
    *why = g_strdup (known->why);
  if (*why != NULL || !read_quantity (reading, record, known->quantity, &quantity, why)
      || !read_money (reading, record, LID_STOCK_PRICE, &price, why)
      || !read_money (reading, record, LID_STOCK_CREDIT, &credit, why) || quantity == 0)
    return NULL;
  row = g_new0 (LidStockRow, 1);
  row->module = lid_module_ref (known->module);
  row->label = *label != 0 ? g_steal_pointer (&label) : NULL;
  row->part = g_strdup (known->module->part);
  row->bin = lid_text_clean (cell (reading, record, LID_STOCK_BIN), -1);
  if (*row->bin == 0)
    g_clear_pointer (&row->bin, g_free);
  row->quantity = (guint)quantity;
  row->price_minor = price;
  row->credit_minor = credit;
  row->line = record->line;
  return row;
}
