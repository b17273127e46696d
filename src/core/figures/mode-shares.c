/* SPDX-License-Identifier: GPL-3.0-or-later */
/* mode-shares.c: what a memory mode leaves, in all and channel by channel.
 *
 *   mirrored         of each pair the smaller side once, half of it on each side: reads are shared
 *   partly mirrored  all but the mirrored size, taken from every channel in proportion
 *   spared           of each channel all but its k largest ranks: a spare must hold any of them
 *   paired           of each pair twice the smaller side; channels in no pair carry nothing
 *
 * Halves and proportions need not be whole MiB, and one MiB more on a channel would make a region
 * of its own. So regions are formed in units: region_mib of a channel times region_unit is what it
 * gives, and only sizes that are shown are rounded, so that they still add up. Bandwidth does not
 * change with the unit. Sources: product.md 6, "Usable capacity", "Expected bandwidth";
 * shared/facts/population.md 3. */
#include "figures/mode-shares.h"

#include "figures/capacity.h"

static guint
ranks_of (const LidSurvey *survey, guint slot)
{
  gboolean known;

  return lid_board_count_ranks (survey->board, lid_survey_module (survey, slot), &known);
}

/* The capacity of the @spare largest ranks of a channel; a rank's size is rounded up. */
static gint64
largest_ranks (const LidSurvey *survey,
               const guint8 *unusable,
               const LidSurveyChannel *channel,
               guint spare)
{
  guint8 done[LID_BOARD_MAX_SLOTS] = { 0 };
  gint64 mib = 0;

  while (spare != 0)
    {
      LidRatio most = LID_RATIO_UNKNOWN;
      guint best = G_MAXUINT, take;

      for (guint i = 0; i < channel->n_fitted; i++)
        {
          guint slot = channel->fitted[i];
          LidRatio rank = lid_ratio (lid_module_capacity (lid_survey_module (survey, slot)),
                                     ranks_of (survey, slot));

          if (!done[slot] && lid_capacity_counts (survey, unusable, slot)
              && lid_ratio_compare (rank, most) > 0)
            {
              most = rank;
              best = slot;
            }
        }
      if (!lid_ratio_is_known (most))
        return mib;
      take = MIN (spare, ranks_of (survey, best));
      mib += (most.num * take + most.den - 1) / most.den;
      done[best] = TRUE;
      spare -= take;
    }
  return mib;
}

static void
share_spared (const LidSurvey *survey, const guint8 *unusable, LidFigures *figures)
{
  for (guint c = 0; c < figures->n_channels; c++)
    {
      LidChannelFigures *channel = &figures->channels[c];

      channel->region_mib
          -= largest_ranks (survey, unusable, &survey->channels[c], figures->mode.spare_ranks);
      channel->usable_mib = channel->region_mib;
    }
}

static void
share_pairs (const LidBoardMode *rule, LidFigures *figures, gboolean mirrored)
{
  for (guint c = 0; c < figures->n_channels; c++)
    {
      figures->channels[c].region_mib = figures->channels[c].usable_mib = 0;
      figures->channels[c].in_use = FALSE;
    }
  for (guint i = 0; i < rule->n_pairs; i++)
    {
      LidChannelFigures *a = &figures->channels[rule->pairs[i].a];
      LidChannelFigures *b = &figures->channels[rule->pairs[i].b];
      gint64 side = MIN (a->capacity_mib, b->capacity_mib);

      a->in_use = b->in_use = a->modules > 0 && b->modules > 0;
      a->region_mib = b->region_mib = side;
      b->usable_mib = mirrored ? side / 2 : side;
      a->usable_mib = mirrored ? side - b->usable_mib : side;
    }
  if (mirrored)
    figures->region_unit = lid_ratio (1, 2);
}

/* Each channel gives in proportion; rounded so that all of them add up. */
static void
share_partly (LidFigures *figures, gint64 mirrored)
{
  gint64 so_far = 0, told = 0;

  if (figures->capacity_mib == 0)
    return;
  figures->region_unit = lid_ratio (figures->capacity_mib - mirrored, figures->capacity_mib);
  for (guint c = 0; c < figures->n_channels; c++)
    {
      gint64 upto;

      so_far += figures->channels[c].capacity_mib;
      upto = lid_ratio_round (lid_ratio_mul (lid_ratio (so_far, 1), figures->region_unit));
      figures->channels[c].usable_mib = upto - told;
      told = upto;
    }
}

/**
 * lid_mode_shares_compute:
 * @survey: a population
 * @unusable: (nullable): per slot, 1 where a finding stops it
 * @figures: (inout): capacity and the mode's effect stand in it; what is usable, in all and by
 * channel, is set. Where the mode is refused, plain figures hold
 */
void
lid_mode_shares_compute (const LidSurvey *survey, const guint8 *unusable, LidFigures *figures)
{
  LidMode mode = figures->mode.asked;
  const LidBoardMode *rule = lid_board_find_mode (survey->board, mode);
  gboolean under_mode = figures->mode.effect == LID_EFFECT_TAKEN
                        || (figures->mode.effect == LID_EFFECT_UNSURE && figures->usable_known);

  figures->region_unit = lid_ratio (1, 1);
  figures->usable_mib = figures->capacity_mib;
  for (guint c = 0; c < figures->n_channels; c++)
    figures->channels[c].usable_mib = figures->channels[c].region_mib
        = figures->channels[c].capacity_mib;
  if (!under_mode)
    return;
  if (mode == LID_MODE_SPARED)
    share_spared (survey, unusable, figures);
  else if (mode == LID_MODE_PARTLY_MIRRORED)
    share_partly (figures, survey->population->mirrored_mib);
  else if (rule != NULL)
    share_pairs (rule, figures, mode == LID_MODE_MIRRORED);
  if (mode == LID_MODE_PARTLY_MIRRORED)
    {
      figures->usable_mib -= survey->population->mirrored_mib;
      return;
    }
  figures->usable_mib = 0;
  for (guint c = 0; c < figures->n_channels; c++)
    figures->usable_mib += figures->channels[c].usable_mib;
}
