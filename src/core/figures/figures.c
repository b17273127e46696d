/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "figures/figures.h"

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
  figures->sockets = g_new0 (LidSocketFigures, board->n_sockets + 1);
  figures->n_channels = board->n_channels;
  figures->channels = g_new0 (LidChannelFigures, board->n_channels + 1);
  figures->rates = g_new0 (LidChannelRate, board->n_channels + 1);
  figures->regions = g_array_sized_new (FALSE, FALSE, sizeof (LidRegion), board->n_channels + 1);
}

void
lid_figures_clear (LidFigures *figures)
{
  g_clear_pointer (&figures->sockets, g_free);
  g_clear_pointer (&figures->channels, g_free);
  g_clear_pointer (&figures->rates, g_free);
  g_clear_pointer (&figures->regions, g_array_unref);
}
