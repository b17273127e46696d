/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A shelf of 100,000 rows read and reduced. Aim: a median under one second in a release build. */
#include "stock/stock.h"

#include <stdlib.h>
#include <string.h>

#define ROWS 100000u
#define ROUNDS 7u

static const char *const labels[] = {
  "32GB 2Rx4 PC4-3200AA-RB2-12", "16GB 2Rx8 PC4-3200AA-RE2-12",
  "64GB 2Rx4 PC4-2933Y-RB2-12",  "16GB 1Rx8 PC5-4800B-RD0-1010-XT",
  "32g 2rx4 3200 registered",    "128GB 2S2Rx4 PC4-2933Y-LD2-12",
  "8GB 1Rx8 PC4-2400T-UA2-11",   "64GB 2Rx4 PC5-4800B-RA0-1010-XT",
};

/* n_parts part numbers: few, as a shelf has; or one a row, the worst there is. */
static char *
make_shelf (guint n_parts)
{
  GString *out = g_string_new ("part;label;quantity;\"price EUR 0,00\";credit;bin\r\n");
  g_autoptr (GRand) rand = g_rand_new_with_seed (20261128);

  for (guint i = 0; i < ROWS; i++)
    {
      guint part = (guint)g_rand_int_range (rand, 0, (gint32)n_parts);

      if (n_parts == ROWS)
        part = i;
      g_string_append_printf (out, "TRN-%05u;\"%s\";%d;\"%d.%03d,%02d\";%d;\"bin %d\"\r\n", part,
                              labels[part % G_N_ELEMENTS (labels)], g_rand_int_range (rand, 1, 40),
                              g_rand_int_range (rand, 1, 3), g_rand_int_range (rand, 0, 1000),
                              g_rand_int_range (rand, 0, 100), g_rand_int_range (rand, 0, 90),
                              g_rand_int_range (rand, 1, 500));
    }
  return g_string_free (out, FALSE);
}

static int
compare (const void *a, const void *b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return (x > y) - (x < y);
}

static void
measure (guint n_parts)
{
  g_autofree char *text = make_shelf (n_parts);
  gint64 times[ROUNDS];
  guint n_kinds = 0, n_rows = 0;

  for (guint i = 0; i < ROUNDS; i++)
    {
      gint64 start = g_get_monotonic_time ();
      g_autoptr (LidStock) stock = lid_stock_parse (text, strlen (text), NULL, NULL);
      g_autoptr (GPtrArray) kinds = lid_stock_reduce (stock, 192);

      times[i] = g_get_monotonic_time () - start;
      n_kinds = kinds->len;
      n_rows = stock->rows->len;
    }
  qsort (times, ROUNDS, sizeof *times, compare);
  g_print ("stock of %u rows, %u part numbers: median %.0f ms, %u kinds, %.1f MB\n", n_rows,
           n_parts, (double)times[ROUNDS / 2] / 1000, n_kinds, (double)strlen (text) / 1e6);
}

int
main (void)
{
  measure (300);
  measure (ROWS);
  return 0;
}
