/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "figures/figures.h"

#include "figures/bandwidth.h"
#include "figures/capacity.h"
#include "figures/mode-demands.h"
#include "figures/mode-shares.h"

static const char *const caps[LID_N_CAPS] = {
  [LID_CAP_MODULE] = "module",       [LID_CAP_TABLE] = "table",
  [LID_CAP_PROCESSOR] = "processor", [LID_CAP_BOARD] = "board",
  [LID_CAP_FIRMWARE] = "firmware",   [LID_CAP_SETUP] = "setup",
  [LID_CAP_INVENTORY] = "inventory",
};

/**
 * lid_cap_to_text:
 * @cap: what limits the running rate
 *
 * Returns: (transfer none): the word of product.md 11, key "what"
 */
const char *
lid_cap_to_text (LidCap cap)
{
  g_return_val_if_fail ((guint)cap < LID_N_CAPS, NULL);
  return caps[cap];
}

/**
 * lid_figures_init:
 * @figures: (out caller-allocates): to be given back with lid_figures_clear()
 * @board: whose sockets and channels
 *
 * Makes room once, so that computing allocates nothing.
 */
void
lid_figures_init (LidFigures *figures, const LidBoard *board)
{
  *figures = (LidFigures){ 0 };
  figures->n_sockets = board->n_sockets;
  figures->sockets = g_new0 (LidSocketFigures, board->n_sockets);
  figures->n_channels = board->n_channels;
  figures->channels = g_new0 (LidChannelFigures, board->n_channels);
  figures->rates = g_new0 (LidChannelRate, board->n_channels);
  figures->mode.unmet_at = g_new0 (guint32, board->n_slots);
  figures->mode.missed_at = g_new0 (guint32, board->n_slots);
  figures->regions = g_array_sized_new (FALSE, FALSE, sizeof (LidRegion), board->n_channels);
}

void
lid_figures_clear (LidFigures *figures)
{
  g_clear_pointer (&figures->sockets, g_free);
  g_clear_pointer (&figures->channels, g_free);
  g_clear_pointer (&figures->rates, g_free);
  g_clear_pointer (&figures->mode.unmet_at, g_free);
  g_clear_pointer (&figures->mode.missed_at, g_free);
  g_clear_pointer (&figures->regions, g_array_unref);
}

static void
forget (LidFigures *figures)
{
  figures->peak_mbs = figures->whole_mbs = figures->best_mbs = figures->worst_mbs
      = figures->even_share = LID_RATIO_UNKNOWN;
  figures->channels_in_use = figures->channels_of_fitted = 0;
  g_array_set_size (figures->regions, 0);
  for (guint s = 0; s < figures->n_sockets; s++)
    {
      LidSocketFigures *socket = &figures->sockets[s];

      socket->first_region = socket->n_regions = 0;
      socket->peak_mbs = socket->whole_mbs = LID_RATIO_UNKNOWN;
    }
}

/**
 * lid_figures_compute:
 * @survey: the population; the running rate is computed already
 * @unusable: (nullable): per slot, 1 where a finding stops it; NULL: nothing is stopped
 * @figures: (inout): everything but the rate and its limits is set
 *
 * The figures of the usable part, in one pass (product.md 6). Not for a stopped machine.
 */
void
lid_figures_compute (const LidSurvey *survey, const guint8 *unusable, LidFigures *figures)
{
  forget (figures);
  figures->starts = TRUE;
  figures->fitted_mib = lid_capacity_fitted (survey);
  figures->channels_told = survey->board->channels_told;
  lid_capacity_compute (survey, unusable, figures);
  lid_mode_demands_judge (survey, unusable, figures);
  lid_mode_shares_compute (survey, unusable, figures);
  if (figures->channels_told)
    lid_bandwidth_compute (survey, figures);
}

/**
 * lid_figures_stop:
 * @survey: the population
 * @figures: (inout): becomes that of a machine that does not start
 *
 * Every figure null, limits and regions empty, channels with the modules fitted on them still
 * listed, what is fitted still a number (product.md 6, settled reading 4). What the table says of
 * each channel stays, for the findings.
 */
void
lid_figures_stop (const LidSurvey *survey, LidFigures *figures)
{
  forget (figures);
  figures->starts = FALSE;
  figures->fitted_mib = lid_capacity_fitted (survey);
  figures->capacity_known = figures->usable_known = FALSE;
  lid_mode_demands_forget (survey, figures);
  figures->capacity_mib = figures->usable_mib = 0;
  figures->running = LID_RATE_UNKNOWN;
  figures->n_limits = 0;
  figures->channels_told = survey->board->channels_told;
  for (guint s = 0; s < figures->n_sockets; s++)
    figures->sockets[s].running = LID_RATE_UNKNOWN;
  for (guint i = 0; i < figures->n_channels; i++)
    figures->channels[i] = (LidChannelFigures){ .modules = survey->channels[i].n_fitted };
}
