/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stock-names.c: how people head the columns of a stock file, in English, German and French (common
 * practice, no source). */
#include "stock/stock-names.h"

#include <string.h>

typedef struct
{
  const char *name;
  LidStockColumn column;
} Name;

static const Name names[] = {
  { "part", LID_STOCK_PART },         { "part number", LID_STOCK_PART },
  { "label", LID_STOCK_LABEL },       { "quantity", LID_STOCK_QUANTITY },
  { "qty", LID_STOCK_QUANTITY },      { "count", LID_STOCK_QUANTITY },
  { "price", LID_STOCK_PRICE },       { "credit", LID_STOCK_CREDIT },
  { "bin", LID_STOCK_BIN },           { "shelf", LID_STOCK_BIN },
  { "teilenummer", LID_STOCK_PART },  { "etikett", LID_STOCK_LABEL },
  { "menge", LID_STOCK_QUANTITY },    { "anzahl", LID_STOCK_QUANTITY },
  { "preis", LID_STOCK_PRICE },       { "gutschrift", LID_STOCK_CREDIT },
  { "fach", LID_STOCK_BIN },          { "lagerplatz", LID_STOCK_BIN },
  { "référence", LID_STOCK_PART },    { "étiquette", LID_STOCK_LABEL },
  { "quantité", LID_STOCK_QUANTITY }, { "prix", LID_STOCK_PRICE },
  { "avoir", LID_STOCK_CREDIT },      { "casier", LID_STOCK_BIN },
  { "emplacement", LID_STOCK_BIN },
};

/* What other people's sheets head the same (common practice, no source). They give way to a name
 * from above, and of two of them the first counts: a sheet may well have a description beside a
 * label. */
static const Name other_names[] = {
  { "part no.", LID_STOCK_PART },
  { "part no", LID_STOCK_PART },
  { "sku", LID_STOCK_PART },
  { "article number", LID_STOCK_PART },
  { "artikelnummer", LID_STOCK_PART },
  { "artikelnr.", LID_STOCK_PART },
  { "artikel-nr.", LID_STOCK_PART },
  { "teilenr.", LID_STOCK_PART },
  { "teile-nr.", LID_STOCK_PART },
  { "bestellnummer", LID_STOCK_PART },
  { "référence article", LID_STOCK_PART },
  { "réf.", LID_STOCK_PART },
  { "réf", LID_STOCK_PART },
  { "code article", LID_STOCK_PART },
  { "description", LID_STOCK_LABEL },
  { "designation", LID_STOCK_LABEL },
  { "bezeichnung", LID_STOCK_LABEL },
  { "beschreibung", LID_STOCK_LABEL },
  { "artikelbezeichnung", LID_STOCK_LABEL },
  { "désignation", LID_STOCK_LABEL },
  { "libellé", LID_STOCK_LABEL },
  { "module", LID_STOCK_LABEL },
  { "modul", LID_STOCK_LABEL },
  { "on hand", LID_STOCK_QUANTITY },
  { "in stock", LID_STOCK_QUANTITY },
  { "pieces", LID_STOCK_QUANTITY },
  { "pcs", LID_STOCK_QUANTITY },
  { "stück", LID_STOCK_QUANTITY },
  { "stückzahl", LID_STOCK_QUANTITY },
  { "bestand", LID_STOCK_QUANTITY },
  { "qté", LID_STOCK_QUANTITY },
  { "nombre", LID_STOCK_QUANTITY },
  { "en stock", LID_STOCK_QUANTITY },
  { "unit price", LID_STOCK_PRICE },
  { "price each", LID_STOCK_PRICE },
  { "stückpreis", LID_STOCK_PRICE },
  { "einzelpreis", LID_STOCK_PRICE },
  { "rücknahme", LID_STOCK_CREDIT },
  { "reprise", LID_STOCK_CREDIT },
  { "location", LID_STOCK_BIN },
  { "lagerort", LID_STOCK_BIN },
  { "regal", LID_STOCK_BIN },
  { "étagère", LID_STOCK_BIN },
  { "rayon", LID_STOCK_BIN },
};

static LidStockColumn
find_in (const Name *list, guint n_names, const char *heading)
{
  for (guint i = 0; i < n_names; i++)
    {
      gsize n = strlen (list[i].name);
      gboolean money = list[i].column == LID_STOCK_PRICE || list[i].column == LID_STOCK_CREDIT;

      if (strncmp (heading, list[i].name, n) == 0
          && (heading[n] == 0 || (money && !g_ascii_isalnum (heading[n]))))
        return list[i].column;
    }
  return LID_STOCK_N_COLUMNS;
}

/**
 * lid_stock_names_find:
 * @heading: a heading in small letters, blanks single; behind "price" and "credit" more may stand
 * @other: (out): whether by one of the names that give way
 *
 * Returns: the column a heading names; LID_STOCK_N_COLUMNS: one that is none of ours
 */
LidStockColumn
lid_stock_names_find (const char *heading, gboolean *other)
{
  LidStockColumn column = find_in (names, G_N_ELEMENTS (names), heading);

  *other = column == LID_STOCK_N_COLUMNS;
  return *other ? find_in (other_names, G_N_ELEMENTS (other_names), heading) : column;
}
