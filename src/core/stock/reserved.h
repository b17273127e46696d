/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "stock/stock.h"

/* What of a stock file is put by for jobs: kept in a file of ours beside it (STOCK.reserved, JSON),
 * because the stock file itself is never written. */

#define LID_RESERVED_FORMAT 1
#define LID_RESERVED_MAX 100000u

typedef struct
{
  char *job;   /* whose: a name the caller makes, the same for the same job */
  char *part;  /* nullable */
  char *label; /* as the stock file writes it, nullable */
  char *bin;   /* nullable */
  guint count; /* at least 1 */
  char *when;  /* ISO 8601, nullable */
} LidReservation;

typedef struct
{
  GPtrArray *entries; /* LidReservation */
  gboolean newer;     /* written by a later version: counted, not written */
} LidReserved;

LidReservation *lid_reservation_new (const LidStockRow *row, guint count);
void lid_reservation_free (LidReservation *reservation);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidReservation, lid_reservation_free)

char *lid_reserved_path (const char *stock_path);
LidReserved *lid_reserved_load (const char *stock_path, GError **error);
void lid_reserved_free (LidReserved *reserved);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidReserved, lid_reserved_free)
void lid_reserved_apply (const LidReserved *reserved, LidStock *stock, const char *but_for);
LidStock *lid_reserved_read_stock (const char *stock_path,
                                   const LidStockOptions *options,
                                   const char *but_for,
                                   GError **error);

gboolean
lid_reserved_count (const char *stock_path, const char *job, guint *n_modules, GError **error);

/* reserved-take.c: the two calls that write */
gboolean lid_reserved_take (const char *stock_path,
                            const LidStockOptions *options,
                            const char *job,
                            GPtrArray *wanted,
                            GError **error);
gboolean
lid_reserved_release (const char *stock_path, const char *job, guint *n_modules, GError **error);

/* reserved-file.c, private */
LidReserved *lid_reserved_parse (const char *text, gsize size, GError **error);
char *lid_reserved_to_text (const LidReserved *reserved);
guint lid_reserved_allot (LidStock *stock, const LidReservation *reservation);
