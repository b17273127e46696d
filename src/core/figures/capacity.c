/* SPDX-License-Identifier: GPL-3.0-or-later */
/* capacity.c: how much memory is in the slots, and how much of it the machine uses.
 *
 * Persistent modules keep data and are no memory to the machine: they are in none of these sums
 * (product.md 6, settled reading 1). A module whose size is not told counts 0 in what is fitted,
 * which is always a number; where it is usable, what the machine carries is not known, and the sums
 * are only lower bounds, marked so. What a memory mode leaves of it: mode-shares.c. */
#include "figures/capacity.h"

static gboolean
is_memory (const LidSurvey *survey, guint slot)
{
  return !lid_survey_module (survey, slot)->persistent;
}

/**
 * lid_capacity_counts:
 * @unusable: (nullable): per slot, 1 where a finding stops it
 * @slot: a slot
 *
 * Returns: whether it holds memory the machine can use; a slot of an absent processor never does
 */
gboolean
lid_capacity_counts (const LidSurvey *survey, const guint8 *unusable, guint slot)
{
  return lid_survey_module (survey, slot) != NULL && (unusable == NULL || !unusable[slot])
         && is_memory (survey, slot) && lid_survey_socket_fitted (survey, slot);
}

/**
 * lid_capacity_fitted:
 * @survey: a population
 *
 * Returns: MiB of all modules in slots, whatever a rule says of them and whether or not their
 * processor is there; persistent left out
 */
gint64
lid_capacity_fitted (const LidSurvey *survey)
{
  gint64 mib = 0;

  for (guint i = 0; i < survey->n_fitted; i++)
    if (is_memory (survey, survey->fitted[i]))
      mib += lid_module_capacity (lid_survey_module (survey, survey->fitted[i]));
  return mib;
}

/**
 * lid_capacity_compute:
 * @survey: a population
 * @unusable: (nullable): per slot, 1 where a finding stops it; NULL: nothing is stopped
 * @figures: (inout): capacity in all and by channel
 *
 * Source: product.md 6, "Capacity".
 */
void
lid_capacity_compute (const LidSurvey *survey, const guint8 *unusable, LidFigures *figures)
{
  const LidBoard *board = survey->board;

  figures->capacity_mib = 0;
  figures->capacity_known = TRUE;
  for (guint i = 0; i < board->n_channels; i++)
    figures->channels[i] = (LidChannelFigures){ .capacity_known = TRUE };
  for (guint i = 0; i < survey->n_fitted; i++)
    {
      guint slot = survey->fitted[i];
      const LidModule *module = lid_survey_module (survey, slot);
      int channel = board->slots[slot].channel;
      gint64 mib = lid_module_capacity (module);
      gboolean known = module->basis[LID_FACT_CAPACITY] != LID_BASIS_NONE;

      if (!lid_capacity_counts (survey, unusable, slot))
        continue;
      figures->capacity_mib += mib;
      figures->capacity_known = figures->capacity_known && known;
      if (channel == LID_NOWHERE)
        continue;
      figures->channels[channel].modules++;
      figures->channels[channel].in_use = TRUE;
      figures->channels[channel].capacity_mib += mib;
      figures->channels[channel].capacity_known
          = figures->channels[channel].capacity_known && known;
    }
}
