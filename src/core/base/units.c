/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"

#include "base/text.h"

#include <glib/gi18n-lib.h>

/* Numbers are put into a text of their own first: a translation cannot hold the format of a 64-bit
 * number. */
static char *
tenths (gint64 value, gint64 unit, gboolean always)
{
  gint64 tenth = value % unit * 10 / unit;

  if (value % unit == 0 && !always)
    return g_strdup_printf ("%" G_GINT64_FORMAT, value / unit);
  return g_strdup_printf ("%" G_GINT64_FORMAT ".%" G_GINT64_FORMAT, value / unit, tenth);
}

/**
 * lid_units_capacity:
 * @mib: a capacity in MiB, binary as labels count (1 GB = 1024 MiB)
 *
 * The same words on screen, sheet and command line: "512 MB", "96 GB", "1.5 TB (1536 GB)". Tenths
 * are cut, never rounded up to memory that is not there.
 *
 * Returns: (transfer full): the text
 */
char *
lid_units_capacity (gint64 mib)
{
  g_autofree char *gb = tenths (mib, 1024, FALSE), *tb = NULL;

  if (mib % 1024 != 0 && mib < 10240)
    return lid_units_capacity_mb (mib);
  if (mib < 1024 * 1024)
    return g_strdup_printf (_ ("%s GB"), gb);
  tb = tenths (mib, 1024 * 1024, FALSE);
  return g_strdup_printf (_ ("%s TB (%s GB)"), tb, gb);
}

/**
 * lid_units_capacities:
 * @mib: capacities in MiB
 * @n: how many, at least one
 *
 * Returns: (transfer full): all of them, "16 GB, 32 GB and 64 GB"
 */
char *
lid_units_capacities (const gint64 *mib, guint n)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < n; i++)
    g_ptr_array_add (words, lid_units_capacity (mib[i]));
  return lid_text_join ((const char *const *)words->pdata, words->len, words->len);
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
  g_autofree char *number = tenths (mib, 1, FALSE);

  return g_strdup_printf (_ ("%s MB"), number);
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
  gint64 rounded = (mbs + 50) / 100;
  g_autofree char *number
      = rounded >= 1000 ? tenths ((mbs + 500) / 1000, 1, FALSE) : tenths (rounded, 10, TRUE);

  return g_strdup_printf (_ ("%s GB/s"), number);
}

/**
 * lid_units_bandwidth_range:
 * @least_mbs: the lower end in decimal MB/s
 * @most_mbs: the upper end
 *
 * Returns: (transfer full): "19 to 113 GB/s", both to whole GB/s, halves up: a model's range does
 * not earn tenths
 */
char *
lid_units_bandwidth_range (gint64 least_mbs, gint64 most_mbs)
{
  g_autofree char *least = tenths ((least_mbs + 500) / 1000, 1, FALSE);
  g_autofree char *most = tenths ((most_mbs + 500) / 1000, 1, FALSE);

  return g_strdup_printf (_ ("%s to %s GB/s"), least, most);
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
