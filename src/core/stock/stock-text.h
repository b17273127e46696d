/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

char *lid_stock_text_decode (
    const char *bytes, gsize size, gsize *out_size, gboolean *assumed, GError **error);
