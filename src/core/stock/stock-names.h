/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "stock/stock-header.h"

LidStockColumn lid_stock_names_find (const char *heading, gboolean *other);
