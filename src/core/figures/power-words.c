/* SPDX-License-Identifier: GPL-3.0-or-later */
/* power-words.c: watts as people read them, rounded away from the middle: a planning figure has no
 * decimals. */
#include "figures/power-words.h"

#include <glib/gi18n-lib.h>

static int
watts_down (gint64 mw)
{
  return (int)(mw / 1000 - (mw % 1000 < 0));
}

static int
watts_up (gint64 mw)
{
  return -watts_down (-mw);
}

/**
 * lid_power_words_range:
 * @sum: of a machine
 *
 * Returns: (transfer full): "8 to 24 W when busy", with what is not known; NULL without modules
 */
char *
lid_power_words_range (const LidPowerSum *sum)
{
  int low = watts_down (sum->low_mw), high = watts_up (sum->high_mw);
  guint told = sum->n - sum->n_not_known;

  if (sum->n == 0)
    return NULL;
  if (told == 0)
    return g_strdup (_ ("not known: nothing is published of such modules"));
  if (sum->n_not_known == 0)
    return g_strdup_printf (_ ("%d to %d W when busy"), low, high);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                       "%d to %d W when busy, without %u module of which nothing "
                                       "is published",
                                       "%d to %d W when busy, without %u modules of which nothing "
                                       "is published",
                                       sum->n_not_known),
                          low, high, sum->n_not_known);
}

/**
 * lid_power_words_change:
 * @change: between two populations
 *
 * Returns: (transfer full) (nullable): "2 to 6 W more than as found"; NULL where nothing changes or
 *   not all of it is known
 */
char *
lid_power_words_change (const LidPowerSum *change)
{
  int low = watts_down (change->low_mw), high = watts_up (change->high_mw);

  if (change->n == 0 || change->n_not_known > 0)
    return NULL;
  if (low >= 0)
    return g_strdup_printf (_ ("%d to %d W more than as found"), low, high);
  if (high <= 0)
    return g_strdup_printf (_ ("%d to %d W less than as found"), -high, -low);
  return g_strdup_printf (_ ("between %d W less and %d W more than as found"), -low, high);
}
