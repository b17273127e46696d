/* SPDX-License-Identifier: GPL-3.0-or-later */
/* matched.c: the narrowest region where controllers have to match.
 *
 * Of one family the kernel knows regions of one, two or three channels of one or of two
 * controllers, and firmware asks that a set over both has as many channels on each
 * (population.md 4.1, K1, K6). So four equal channels that hang three on one controller and one on
 * the other are no set of four: they are read as three and one, or as two and two. regions.c counts
 * channels alone, because what the planner proves rests on that; here only the slow end of the
 * range is worked out, so that the figure shown is a range where the machine may well be slower
 * than the count says. */
#include "figures/matched.h"

#include "board/board.h"

typedef struct
{
  const LidRegionChannel *channels;
  guint n;
  gint64 left[LID_BOARD_MAX_CHANNELS];
} Work;

/* The channel of @controller with most left that is not in @picked; n: none has anything. */
static guint
fullest (const Work *work, int controller, const gboolean *picked)
{
  guint best = work->n;

  for (guint i = 0; i < work->n; i++)
    if (work->channels[i].controller == controller && !picked[i] && work->left[i] > 0
        && (best == work->n || work->left[i] > work->left[best]))
      best = i;
  return best;
}

/* The first channel of a controller stands for it. */
static gboolean
is_first (const Work *work, guint channel)
{
  for (guint i = 0; i < channel; i++)
    if (work->channels[i].controller == work->channels[channel].controller)
      return FALSE;
  return TRUE;
}

/* The least that the @each fullest channels of a controller have left; 0: it has not so many. */
static gint64
depth_of (const Work *work, int controller, guint each)
{
  gboolean picked[LID_BOARD_MAX_CHANNELS] = { FALSE };
  gint64 least = 0;

  for (guint k = 0; k < each; k++)
    {
      guint at = fullest (work, controller, picked);

      if (at == work->n)
        return 0;
      picked[at] = TRUE;
      least = work->left[at];
    }
  return least;
}

/* Takes @each channels of @n_controllers, those that carry most; FALSE: there are not so many. */
static gboolean
pick (const Work *work, guint n_controllers, guint each, gboolean *picked)
{
  gboolean used[LID_BOARD_MAX_CHANNELS] = { FALSE };

  for (guint c = 0; c < n_controllers; c++)
    {
      guint best = work->n;
      gint64 most = 0;

      for (guint i = 0; i < work->n; i++)
        if (!used[i] && is_first (work, i)
            && depth_of (work, work->channels[i].controller, each) > most)
          {
            most = depth_of (work, work->channels[i].controller, each);
            best = i;
          }
      if (best == work->n)
        return FALSE;
      used[best] = TRUE;
      for (guint k = 0; k < each; k++)
        picked[fullest (work, work->channels[best].controller, picked)] = TRUE;
    }
  return TRUE;
}

/* The widest set there is; returns its ways. One channel is always one, and nothing is picked. */
static guint
widest (const Work *work, LidRegionRule rule, guint live, gboolean *picked)
{
  for (guint ways = MIN (live, 31); ways > 1; ways--)
    for (guint n = ways; n > 0 && (rule.ways >> ways & 1) == 1; n--)
      {
        for (guint i = 0; i < work->n; i++)
          picked[i] = FALSE;
        if (ways % n == 0 && pick (work, n, ways / n, picked))
          return ways;
      }
  return 1;
}

static guint
narrowest_of (LidRegionRule rule, const LidRegionChannel *channels, guint n_channels)
{
  Work work = { .channels = channels, .n = n_channels };
  guint narrowest = G_MAXUINT;

  for (guint i = 0; i < n_channels; i++)
    if (channels[i].controller == 0)
      return G_MAXUINT;
    else
      work.left[i] = channels[i].mib;
  for (;;)
    {
      gboolean picked[LID_BOARD_MAX_CHANNELS];
      gint64 least = G_MAXINT64;
      guint live = 0, ways;

      for (guint i = 0; i < n_channels; i++)
        live += work.left[i] > 0;
      if (live == 0)
        return narrowest;
      ways = widest (&work, rule, live, picked);
      if (ways == 1)
        return ways;
      narrowest = MIN (narrowest, ways);
      for (guint i = 0; i < n_channels; i++)
        least = picked[i] ? MIN (least, work.left[i]) : least;
      for (guint i = 0; i < n_channels; i++)
        work.left[i] -= picked[i] ? least : 0;
    }
}

/**
 * lid_matched_narrowest:
 * @rule: of a board
 * @channels: the channels of one node, capacities in MiB
 * @n_channels: how many, at most LID_BOARD_MAX_CHANNELS
 *
 * Returns: how many ways the narrowest region has; G_MAXUINT where the board does not ask that
 * controllers match, where a controller is not told, or where there is nothing to read
 */
guint
lid_matched_narrowest (LidRegionRule rule, const LidRegionChannel *channels, guint n_channels)
{
  g_return_val_if_fail (n_channels <= LID_BOARD_MAX_CHANNELS, G_MAXUINT);
  /* Asked for every population that is judged, and seldom told. */
  if (!rule.matched || rule.model != LID_REGIONS_WAYS)
    return G_MAXUINT;
  return narrowest_of (rule, channels, n_channels);
}
