/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stock-options.h"

#include "output.h"
#include "own-data.h"

#include <glib/gi18n.h>
#include <string.h>

char *lid_stock_option_decimal, *lid_stock_option_currency;

/**
 * lid_stock_options_read:
 * @options: (out): what the command line told, with the user's parts memory
 *
 * Returns: FALSE, after a complaint, where an option is wrong
 */
gboolean
lid_stock_options_read (LidStockOptions *options)
{
  const char *mark = lid_stock_option_decimal;

  *options = (LidStockOptions){ 0, lid_stock_option_currency, lid_own_parts () };
  if (mark == NULL)
    return TRUE;
  if (strcmp (mark, "comma") == 0)
    options->decimal = ',';
  else if (strcmp (mark, "point") == 0)
    options->decimal = '.';
  else
    {
      lid_complain (_ ("--decimal takes comma or point, not “%s”"), mark);
      return FALSE;
    }
  return TRUE;
}

/**
 * lid_stock_options_complain:
 * @source: the stock file's name
 * @stock: as read
 *
 * Names the rows that were kept out, each with its line.
 */
void
lid_stock_options_complain (const char *source, const LidStock *stock)
{
  if (stock->no_price != NULL)
    lid_complain ("%s: %s", source, stock->no_price);
  if (stock->assumed)
    lid_complain ("%s: %s", source, lid_stock_assumed_words ());
  for (guint i = 0; i < stock->complaints->len; i++)
    {
      const LidStockComplaint *complaint = stock->complaints->pdata[i];

      lid_complain (_ ("%s: line %u is kept out: %s"), source, complaint->line, complaint->text);
    }
  if (stock->n_complaints > stock->complaints->len)
    lid_complain (_ ("%s: %u more lines are kept out"), source,
                  stock->n_complaints - stock->complaints->len);
}
