/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/rate.h"

char *lid_units_capacity (gint64 mib);
char *lid_units_capacities (const gint64 *mib, guint n);
char *lid_units_capacity_mb (gint64 mib);
char *lid_units_bandwidth (gint64 mbs);
char *lid_units_bandwidth_range (gint64 least_mbs, gint64 most_mbs);
char *lid_units_rate (LidRate rate);
