/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "document-survive.h"
#include "stock/reserved.h"

#include <string.h>

/* What happens to a shelf once it is read: rows hold what the header promises, kinds hold the rows,
 * reservations never take more than there is. */
const char lid_stock_sample[]
    = "sep=;\r\npart;label;quantity;\"price (EUR, decimal comma)\";credit EUR 0,00;bin\r\n"
      "TP-1;32GB 2Rx4 PC4-3200AA-RB2-12;4;1.084,50;20,00;\"A \"\"1\"\", left\"\r\n"
      "\"TP;2\";\"16x 16GB 2Rx8 PC4-3200AA-RE2-12\";;1 054,5;;B\r\n"
      ";32g 2rx4 3200 registered;1'000;\"12,-\";€ 3;\"C\r\nD\"\r\n";
const char lid_reserved_sample[]
    = "{\"format\": 1, \"reserved\": [{\"job\": \"118\", \"part\": \"TP-1\", \"label\": null, "
      "\"bin\": \"A\", \"count\": 3, \"when\": \"2031-04-02T10:00:00+02\"}, {\"job\": \"119\", "
      "\"label\": \"32g 2rx4 3200 registered\", \"count\": 900}]}";

static void
check_row (const LidStock *stock, const LidStockRow *row)
{
  const char *texts[] = { row->part, row->label, row->bin };

  if (row->module == NULL || row->quantity == 0 || row->quantity > LID_STOCK_MAX_QUANTITY
      || row->price_minor < LID_STOCK_NOT_TOLD || row->credit_minor < LID_STOCK_NOT_TOLD
      || row->line == 0 || row->reserved > row->quantity
      || (row->price_minor >= 0 && stock->currency == NULL))
    lid_document_fail ("a row that cannot be", row->label);
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    if (texts[i] != NULL && (*texts[i] == 0 || !g_utf8_validate (texts[i], -1, NULL)))
      lid_document_fail ("a text that cannot be", texts[i]);
}

static void
check_kinds (const LidStock *stock)
{
  g_autoptr (GPtrArray) kinds = lid_stock_reduce (stock, 0);
  guint64 in_kinds = 0, in_rows = 0;

  for (guint i = 0; i < kinds->len; i++)
    in_kinds += ((LidStockKind *)kinds->pdata[i])->quantity;
  for (guint i = 0; i < stock->rows->len; i++)
    in_rows += lid_stock_row_free_count (stock->rows->pdata[i]);
  if (in_kinds != in_rows)
    lid_document_fail ("modules lost between rows and kinds", NULL);
}

gboolean
lid_stock_survive (const char *text, gsize size)
{
  static const LidStockOptions told = { ',', "EUR", NULL };
  g_autoptr (GError) error = NULL;
  g_autoptr (LidStock) stock = lid_stock_parse (text, size, NULL, &error);

  if (stock == NULL)
    {
      g_autoptr (LidStock) again = lid_stock_parse (text, size, &told, NULL);

      lid_document_check_error (error);
      return FALSE;
    }
  for (guint i = 0; i < stock->complaints->len; i++)
    {
      const LidStockComplaint *complaint = stock->complaints->pdata[i];
      GError as_error = { 0, 0, complaint->text };

      lid_document_check_error (&as_error);
    }
  for (guint i = 0; i < stock->rows->len; i++)
    check_row (stock, stock->rows->pdata[i]);
  check_kinds (stock);
  return TRUE;
}

gboolean
lid_reserved_survive (const char *text, gsize size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidReserved) reserved = lid_reserved_parse (text, size, &error), again = NULL;
  g_autoptr (LidStock) stock
      = lid_stock_parse (lid_stock_sample, strlen (lid_stock_sample), NULL, NULL);
  g_autofree char *saved = NULL;

  if (reserved == NULL)
    {
      lid_document_check_error (error);
      return FALSE;
    }
  lid_reserved_apply (reserved, stock, "118");
  lid_reserved_apply (reserved, stock, NULL);
  for (guint i = 0; i < stock->rows->len; i++)
    check_row (stock, stock->rows->pdata[i]);
  check_kinds (stock);
  saved = lid_reserved_to_text (reserved);
  again = lid_reserved_parse (saved, strlen (saved), &error);
  if (again == NULL || again->entries->len != reserved->entries->len)
    lid_document_fail ("saved reservations are not the same", saved);
  return TRUE;
}
