/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/generation.h"
#include "base/rate.h"

gboolean lid_units_read_capacity (const char *text, gint64 *mib, GError **error);
gboolean
lid_units_read_rate (const char *text, LidGeneration generation, LidRate *rate, GError **error);
