/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "figures/mode-words.h"

#include "base/units.h"

#include <glib/gi18n-lib.h>

/**
 * lid_mode_words_name:
 *
 * Returns: (transfer full): the mode's name alone: "spared"
 */
char *
lid_mode_words_name (LidMode mode)
{
  static const char *const names[LID_N_MODES] = {
    [LID_MODE_PLAIN] = N_ ("plain"),
    [LID_MODE_MIRRORED] = N_ ("mirrored"),
    [LID_MODE_PARTLY_MIRRORED] = N_ ("partly mirrored"),
    [LID_MODE_SPARED] = N_ ("spared"),
    [LID_MODE_PAIRED] = N_ ("paired (lockstep)"),
  };

  return g_strdup (_ (names[mode]));
}

/**
 * lid_mode_words_new:
 * @population: whose memory mode
 *
 * The same words on screen, sheet and command line.
 *
 * Returns: (transfer full): "plain", "mirrored", "partly mirrored, 16 GB", "spared by 1 rank",
 *   "paired (lockstep)"
 */
char *
lid_mode_words_new (const LidPopulation *population)
{
  guint ranks = MAX (population->spare_ranks, 1);
  g_autofree char *size = NULL;

  if (population->mode == LID_MODE_SPARED)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "spared by %u rank", "spared by %u ranks", ranks), ranks);
  if (population->mode != LID_MODE_PARTLY_MIRRORED || population->mirrored_mib == 0)
    return lid_mode_words_name (population->mode);
  size = lid_units_capacity (population->mirrored_mib);
  return g_strdup_printf (_ ("partly mirrored, %s"), size);
}
