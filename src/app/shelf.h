/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "stock/reserved.h"

#include <gio/gio.h>

/* The shelf a window plans with: a stock file, read in the background, since a large one takes a
 * second. It never changes once it is there; another file, or the same file read again, is another
 * shelf. */
#define LID_TYPE_SHELF (lid_shelf_get_type ())
G_DECLARE_FINAL_TYPE (LidShelf, lid_shelf, LID, SHELF, GObject)

void lid_shelf_read_async (GFile *file,
                           char decimal,
                           const char *job,
                           GCancellable *cancellable,
                           GAsyncReadyCallback done,
                           gpointer data);
LidShelf *lid_shelf_read_finish (GAsyncResult *result, GError **error);
GFile *lid_shelf_get_file (LidShelf *self);
const LidStock *lid_shelf_get_stock (LidShelf *self);
const LidStockOptions *lid_shelf_get_options (LidShelf *self);
gboolean lid_shelf_has_news (LidShelf *self);
char *lid_shelf_describe (LidShelf *self);
