/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"

#include <glib/gi18n-lib.h>

/**
 * lid_units_capacity:
 * @mib: a capacity in MiB, binary as labels count (1 GB = 1024 MiB)
 *
 * The same words on screen, sheet and command line: "512 MB", "96 GB", "1.5 TB (1536 GB)".
 *
 * Returns: (transfer full): the text
 */
char *
lid_units_capacity (gint64 mib)
{
  gint64 gb = mib / 1024;

  if (mib % 1024 != 0 && mib < 10240)
    return g_strdup_printf (_ ("%" G_GINT64_FORMAT " MB"), mib);
  if (mib % 1024 != 0)
    return g_strdup_printf (_ ("%" G_GINT64_FORMAT ".%" G_GINT64_FORMAT " GB"), gb,
                            (mib % 1024) * 10 / 1024);
  if (gb < 1024)
    return g_strdup_printf (_ ("%" G_GINT64_FORMAT " GB"), gb);
  if (gb % 1024 == 0)
    return g_strdup_printf (_ ("%" G_GINT64_FORMAT " TB (%" G_GINT64_FORMAT " GB)"), gb / 1024, gb);
  return g_strdup_printf (
      _ ("%" G_GINT64_FORMAT ".%" G_GINT64_FORMAT " TB (%" G_GINT64_FORMAT " GB)"), gb / 1024,
      (gb % 1024) * 10 / 1024, gb);
}

/**
 * lid_units_capacity_mb:
 * @mib: a capacity in MiB
 *
 * Returns: (transfer full): the number as a setup screen prints it, "98304 MB"
 */
char *
lid_units_capacity_mb (gint64 mib)
{
  return g_strdup_printf (_ ("%" G_GINT64_FORMAT " MB"), mib);
}

/**
 * lid_units_bandwidth:
 * @mbs: a bandwidth in decimal MB/s (10^6 B/s)
 *
 * Returns: (transfer full): "23.5 GB/s", from 100 on "113 GB/s"; halves up
 */
char *
lid_units_bandwidth (gint64 mbs)
{
  gint64 tenths = (mbs + 50) / 100;

  if (tenths >= 1000)
    return g_strdup_printf (_ ("%" G_GINT64_FORMAT " GB/s"), (mbs + 500) / 1000);
  return g_strdup_printf (_ ("%" G_GINT64_FORMAT ".%" G_GINT64_FORMAT " GB/s"), tenths / 10,
                          tenths % 10);
}

/**
 * lid_units_rate:
 * @rate: a known rate
 *
 * Returns: (transfer full): "2666 MT/s"
 */
char *
lid_units_rate (LidRate rate)
{
  return g_strdup_printf (_ ("%u MT/s"), lid_rate_mts (rate));
}
