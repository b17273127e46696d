/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stock/reserved.h"

/* fuzz-stock.c: any bytes as a shelf and as what is reserved of one, with and without what a person
 * tells once. Built as tests/fuzz/fuzz-readers.c is. */

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  static const LidStockOptions told[]
      = { { 0, NULL, NULL }, { ',', "EUR", NULL }, { '.', "JPY", NULL } };
  g_autoptr (LidReserved) reserved = lid_reserved_parse ((const char *)data, size, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (told); i++)
    {
      g_autoptr (LidStock) stock = lid_stock_parse ((const char *)data, size, &told[i], NULL);
      g_autoptr (GPtrArray) kinds = NULL;

      if (stock == NULL)
        continue;
      if (reserved != NULL)
        lid_reserved_apply (reserved, stock, NULL);
      kinds = lid_stock_reduce (stock, 8);
    }
  return 0;
}
