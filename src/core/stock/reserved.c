/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stock/reserved.h"

#include "base/json-parse.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/**
 * lid_reserved_path:
 * @stock_path: a stock file
 *
 * Returns: (transfer full): where its reservations are kept
 */
char *
lid_reserved_path (const char *stock_path)
{
  return g_strconcat (stock_path, ".reserved", NULL);
}

/**
 * lid_reserved_load:
 * @stock_path: a stock file
 * @error: names the file of the reservations and the place in it
 *
 * Returns: (transfer full) (nullable): what is reserved of it; none where there is no such file
 */
LidReserved *
lid_reserved_load (const char *stock_path, GError **error)
{
  g_autofree char *path = lid_reserved_path (stock_path), *text = NULL;
  g_autoptr (GError) inner = NULL;
  LidReserved *reserved = NULL;
  gsize size = 0;

  if (lid_json_load (path, &text, &size, &inner))
    {
      reserved = lid_reserved_parse (text, size, &inner);
      if (reserved == NULL)
        g_prefix_error (&inner, "%s: ", path);
    }
  else if (g_error_matches (inner, G_FILE_ERROR, G_FILE_ERROR_NOENT))
    {
      g_clear_error (&inner);
      reserved = lid_reserved_parse ("", 0, NULL);
    }
  if (reserved == NULL)
    g_propagate_prefixed_error (error, g_steal_pointer (&inner),
                                _ ("what is reserved of the stock cannot be read: "));
  return reserved;
}

/* The same thing on the shelf: by part number where there is one, else by what the label column
 * says. */
static gboolean
is_of (const LidStockRow *row, const LidReservation *reservation)
{
  if (reservation->part != NULL)
    return g_strcmp0 (row->part, reservation->part) == 0
           && (reservation->label == NULL || row->label == NULL
               || strcmp (row->label, reservation->label) == 0);
  return row->part == NULL && g_strcmp0 (row->label, reservation->label) == 0;
}

/**
 * lid_reserved_allot:
 * @stock: the shelf
 * @reservation: what to put by
 *
 * Counts it on rows of its bin first, then on others of the same thing: bins are tidied.
 *
 * Returns: how many of it the shelf does not hold any more
 */
guint
lid_reserved_allot (LidStock *stock, const LidReservation *reservation)
{
  guint left = reservation->count;

  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; left > 0 && i < stock->rows->len; i++)
      {
        LidStockRow *row = stock->rows->pdata[i];
        guint n = MIN (left, lid_stock_row_free_count (row));

        if (n == 0 || !is_of (row, reservation)
            || (pass == 0 && g_strcmp0 (row->bin, reservation->bin) != 0))
          continue;
        row->reserved += n;
        left -= n;
      }
  return left;
}

/**
 * lid_reserved_apply:
 * @reserved: what is reserved
 * @stock: the shelf; what its rows said was reserved before is forgotten
 * @but_for: (nullable): a job whose own reservations do not count against it
 */
void
lid_reserved_apply (const LidReserved *reserved, LidStock *stock, const char *but_for)
{
  for (guint i = 0; i < stock->rows->len; i++)
    ((LidStockRow *)stock->rows->pdata[i])->reserved = 0;
  for (guint i = 0; i < reserved->entries->len; i++)
    {
      const LidReservation *entry = reserved->entries->pdata[i];

      if (but_for == NULL || strcmp (entry->job, but_for) != 0)
        lid_reserved_allot (stock, entry);
    }
}

/**
 * lid_reserved_read_stock:
 * @stock_path: a stock file
 * @options: (nullable): as for lid_stock_read()
 * @but_for: (nullable): the job that asks
 * @error: as for lid_stock_read() and lid_reserved_load()
 *
 * Returns: (transfer full) (nullable): the shelf, with what other jobs have reserved of it
 */
LidStock *
lid_reserved_read_stock (const char *stock_path,
                         const LidStockOptions *options,
                         const char *but_for,
                         GError **error)
{
  g_autoptr (LidStock) stock = lid_stock_read (stock_path, options, error);
  g_autoptr (LidReserved) reserved = NULL;

  if (stock == NULL)
    return NULL;
  reserved = lid_reserved_load (stock_path, error);
  if (reserved == NULL)
    return NULL;
  lid_reserved_apply (reserved, stock, but_for);
  return g_steal_pointer (&stock);
}

/**
 * lid_reserved_count:
 * @stock_path: a stock file
 * @job: whose reservations
 * @n_modules: (out): how many modules are put by for it
 * @error: as for lid_reserved_load()
 *
 * Returns: whether that can be told; no reservations are no error
 */
gboolean
lid_reserved_count (const char *stock_path, const char *job, guint *n_modules, GError **error)
{
  g_autoptr (LidReserved) reserved = lid_reserved_load (stock_path, error);

  *n_modules = 0;
  for (guint i = 0; reserved != NULL && i < reserved->entries->len; i++)
    {
      const LidReservation *entry = reserved->entries->pdata[i];

      if (strcmp (entry->job, job) == 0)
        *n_modules += entry->count;
    }
  return reserved != NULL;
}
