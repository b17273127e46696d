/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stock-reduce.c — the shelf as kinds of modules.
 *
 * Rows go together where no rule, no figure and no person could tell their modules apart: every
 * fact equal, the unknown ones unknown in both, and, where a fact is unknown, the same part number
 * too (product.md 3). Of a kind only the cheapest rows are kept that together hold as many modules
 * as anyone can use: a plan that takes n of a kind takes the n cheapest or is dearer for nothing,
 * so no plan that could be shown is lost. */
#include "stock/stock.h"

#include <string.h>

static guint
kind_hash (gconstpointer data)
{
  const LidModule *module = data;
  guint hash = module->persistent;

  for (guint i = 0; i < LID_N_FACTS; i++)
    hash = hash * 31 + (module->basis[i] ? (guint)module->value[i] + 1 : 0);
  if (lid_module_missing_facts (module) != 0 && module->part != NULL)
    hash = hash * 31 + g_str_hash (module->part);
  return hash;
}

static gboolean
kind_equal (gconstpointer one, gconstpointer two)
{
  const LidModule *a = one, *b = two;

  if (a == b)
    return TRUE;
  if (a->persistent != b->persistent)
    return FALSE;
  for (guint i = 0; i < LID_N_FACTS; i++)
    if (!a->basis[i] != !b->basis[i] || (a->basis[i] && a->value[i] != b->value[i]))
      return FALSE;
  return lid_module_missing_facts (a) == 0 || g_strcmp0 (a->part, b->part) == 0;
}

static int
compare_texts (const char *a, const char *b)
{
  if (a == NULL || b == NULL)
    return (a == NULL) - (b == NULL);
  return strcmp (a, b);
}

static gint
compare_rows (gconstpointer one, gconstpointer two)
{
  const LidStockRow *a = *(LidStockRow *const *)one, *b = *(LidStockRow *const *)two;
  gboolean a_told = a->price_minor >= 0, b_told = b->price_minor >= 0;
  int bins;

  if (a_told != b_told)
    return a_told ? -1 : 1;
  if (a_told && a->price_minor != b->price_minor)
    return a->price_minor < b->price_minor ? -1 : 1;
  bins = compare_texts (a->bin, b->bin);
  return bins != 0 ? bins : (a->line > b->line) - (a->line < b->line);
}

static void
kind_free (gpointer data)
{
  LidStockKind *kind = data;

  g_ptr_array_unref (kind->rows);
  g_free (kind);
}

static void
add_row (GPtrArray *kinds, GHashTable *index, LidStockRow *row)
{
  LidStockKind *kind = g_hash_table_lookup (index, row->module);

  if (kind == NULL)
    {
      kind = g_new0 (LidStockKind, 1);
      kind->module = row->module;
      kind->rows = g_ptr_array_new ();
      g_ptr_array_add (kinds, kind);
      g_hash_table_insert (index, row->module, kind);
    }
  g_ptr_array_add (kind->rows, row);
  kind->quantity += lid_stock_row_free_count (row);
}

static void
keep_cheapest (LidStockKind *kind, guint most)
{
  guint64 n = 0;
  guint keep = 0;

  g_ptr_array_sort (kind->rows, compare_rows);
  while (keep < kind->rows->len && n < most)
    n += lid_stock_row_free_count (kind->rows->pdata[keep++]);
  g_ptr_array_set_size (kind->rows, (gint)keep);
  kind->module = ((LidStockRow *)kind->rows->pdata[0])->module;
}

/**
 * lid_stock_reduce:
 * @stock: the shelf; it must outlive the kinds
 * @most: how many modules of one kind anyone can use, as the slots of a board; 0: all are kept
 *
 * Returns: (transfer full) (element-type LidStockKind): the kinds of which something is free, in
 * the order of their first rows
 */
GPtrArray *
lid_stock_reduce (const LidStock *stock, guint most)
{
  GPtrArray *kinds = g_ptr_array_new_with_free_func (kind_free);
  g_autoptr (GHashTable) index = g_hash_table_new (kind_hash, kind_equal);

  for (guint i = 0; i < stock->rows->len; i++)
    if (lid_stock_row_free_count (stock->rows->pdata[i]) > 0)
      add_row (kinds, index, stock->rows->pdata[i]);
  for (guint i = 0; i < kinds->len; i++)
    keep_cheapest (kinds->pdata[i], most > 0 ? most : G_MAXUINT);
  return kinds;
}
