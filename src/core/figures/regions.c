/* SPDX-License-Identifier: GPL-3.0-or-later */
/* regions.c: which channels of one node answer as one.
 *
 * A region is a piece of the address space read from so many channels in turn: its ways. Channels
 * of unequal capacity cannot all serve all of it, so the rest of the larger ones forms regions of
 * fewer ways. How a controller cuts is its maker's and mostly not published; three models stand for
 * what is (shared/facts/population.md 4, with the sources K1 to K3, K6, S12, S33, S34):
 *
 *   layered        every channel with something left takes part, time and again. Only where a board
 *                  tells no set of ways; whoever shows the figures says so.
 *   ways           the same, but only some numbers of channels can go together.
 *   equal groups   only channels of exactly equal capacity go together, none is split.
 *
 * Invariants: every MiB is in exactly one region; a region's size is a multiple of its ways; no
 * model makes more regions than there are channels, so the work below needs no memory of its own
 * but a copy of what is left. Worked case, capacities 2 1 1 2 1 1: layered 6 at six ways + 2 at
 * two; equal groups 4 at two + 4 at four. No model knows the firmware: the three differ on the same
 * modules, which is why every figure made of regions is shown as a model. */
#include "figures/regions.h"

#include "figures/bandwidth.h"

/* From 1 in their socket; 0: not told. */
#define N_CONTROLLERS (LID_BOARD_MAX_CHANNELS + 1)

typedef struct
{
  gint64 left[LID_BOARD_MAX_CHANNELS];
  guint8 picked[LID_BOARD_MAX_CHANNELS];
  guint picked_of_controller[N_CONTROLLERS];
} Work;

/* Whether what a number of ways depends on is there. Where nobody told the model of a processor, it
 * is not: fewer ways are the safe side. A split the board does not offer is none. */
static gboolean
holds (const LidWaysAlso *also, const LidBoard *board, const LidPopulation *population)
{
  guint nodes;

  if (population == NULL)
    return FALSE;
  nodes = lid_bandwidth_splits (board, population->numa_split) ? population->numa_split : 1;
  if (also->nodes != 0 && also->nodes != MAX (nodes, 1))
    return FALSE;
  for (guint s = 0; s < board->n_sockets && also->processor != LID_NOWHERE; s++)
    if (population->processors[s].fitted && population->processors[s].model != also->processor)
      return FALSE;
  return TRUE;
}

/**
 * lid_regions_rule:
 * @board: a board
 * @population: (nullable): processors and NUMA split; NULL: what holds with any
 *
 * Ways is the default and needs a set; without one the model is layered, and whoever shows the
 * figures says so (product.md 6, "Regions").
 *
 * Returns: how it forms regions
 */
LidRegionRule
lid_regions_rule (const LidBoard *board, const LidPopulation *population)
{
  LidRegionRule rule = { LID_REGIONS_WAYS, board->ways, board->matched_source != NULL };

  if (board->region_model_told)
    rule.model = board->region_model;
  if (rule.model == LID_REGIONS_WAYS && rule.ways == 0)
    rule.model = LID_REGIONS_LAYERED;
  for (guint i = 0; i < board->n_ways_also; i++)
    if (holds (&board->ways_also[i], board, population))
      rule.ways |= board->ways_also[i].ways;
  return rule;
}

/* The most channels that go together out of @live. One channel alone always does; equal groups of a
 * board that tells no set are as large as they come. */
static guint
most_ways (LidRegionRule rule, guint live)
{
  guint ways = MIN (live, 31);

  if (rule.model == LID_REGIONS_LAYERED || rule.ways == 0)
    return live;
  while (ways > 1 && (rule.ways & 1u << ways) == 0)
    ways--;
  return ways;
}

/* Whether @a is picked before @b, which has the lower number: most left, then the controller with
 * fewest picked. */
static gboolean
goes_before (const Work *work, const LidRegionChannel *channels, guint a, guint b)
{
  guint of_a = work->picked_of_controller[channels[a].controller];
  guint of_b = work->picked_of_controller[channels[b].controller];

  return work->left[a] > work->left[b] || (work->left[a] == work->left[b] && of_a < of_b);
}

/* Picks @ways channels, no more than have something left; returns the least any of them has. */
static gint64
pick (Work *work, const LidRegionChannel *channels, guint n_channels, guint ways)
{
  gint64 least = G_MAXINT64;

  for (guint i = 0; i < n_channels; i++)
    {
      work->picked[i] = FALSE;
      work->picked_of_controller[channels[i].controller] = 0;
    }
  for (guint n = 0; n < ways; n++)
    {
      guint best = n_channels;

      for (guint i = 0; i < n_channels; i++)
        if (!work->picked[i] && (best == n_channels || goes_before (work, channels, i, best)))
          best = i;
      work->picked[best] = TRUE;
      work->picked_of_controller[channels[best].controller]++;
      least = MIN (least, work->left[best]);
    }
  return least;
}

/* All that is live goes together: nothing to choose. */
static gint64
pick_all (Work *work, guint n_channels)
{
  gint64 least = G_MAXINT64;

  for (guint i = 0; i < n_channels; i++)
    {
      work->picked[i] = work->left[i] > 0;
      if (work->picked[i])
        least = MIN (least, work->left[i]);
    }
  return least;
}

static guint64
bit_of (const LidRegionChannel *channel)
{
  return channel->number < 64 ? G_GUINT64_CONSTANT (1) << channel->number : 0;
}

static void
form_ways (LidRegionRule rule,
           const LidRegionChannel *channels,
           guint n_channels,
           Work *work,
           GArray *regions)
{
  for (;;)
    {
      guint live = 0, ways;
      gint64 least;
      LidRegion region;

      for (guint i = 0; i < n_channels; i++)
        live += work->left[i] > 0;
      if (live == 0)
        return;
      ways = most_ways (rule, live);
      least = ways == live ? pick_all (work, n_channels) : pick (work, channels, n_channels, ways);
      region = (LidRegion){ .mib = least * ways, .ways = ways };
      for (guint i = 0; i < n_channels; i++)
        if (work->picked[i])
          {
            work->left[i] -= least;
            region.channels |= bit_of (&channels[i]);
          }
      g_array_append_val (regions, region);
    }
}

/* The next @ways channels of exactly @mib, in the order of their numbers. */
static void
form_group (const LidRegionChannel *channels, gint64 mib, guint ways, Work *work, GArray *regions)
{
  LidRegion region = { .mib = mib * ways, .ways = ways };

  for (guint i = 0; ways > 0; i++)
    if (work->left[i] == mib)
      {
        work->left[i] = 0;
        region.channels |= bit_of (&channels[i]);
        ways--;
      }
  g_array_append_val (regions, region);
}

static void
form_equal_groups (LidRegionRule rule,
                   const LidRegionChannel *channels,
                   guint n_channels,
                   Work *work,
                   GArray *regions)
{
  for (;;)
    {
      gint64 most = 0;
      guint alike = 0;

      for (guint i = 0; i < n_channels; i++)
        most = MAX (most, work->left[i]);
      if (most == 0)
        return;
      for (guint i = 0; i < n_channels; i++)
        alike += work->left[i] == most;
      form_group (channels, most, most_ways (rule, alike), work, regions);
    }
}

/**
 * lid_regions_form:
 * @rule: how
 * @channels: the channels of one node, in their order; capacities in MiB, controllers below
 * LID_BOARD_MAX_CHANNELS
 * @n_channels: how many, at most LID_BOARD_MAX_CHANNELS
 * @regions: (element-type LidRegion): gets the regions appended in the order formed; two of the
 * same ways on different channels stay apart (settled reading 9)
 *
 * Source of the three models: shared/facts/population.md 4.2 to 4.4.
 */
void
lid_regions_form (LidRegionRule rule,
                  const LidRegionChannel *channels,
                  guint n_channels,
                  GArray *regions)
{
  Work work;

  g_return_if_fail (n_channels <= LID_BOARD_MAX_CHANNELS);
  for (guint i = 0; i < n_channels; i++)
    {
      g_return_if_fail (channels[i].controller >= 0);
      g_return_if_fail ((guint)channels[i].controller < N_CONTROLLERS);
      work.left[i] = channels[i].mib;
    }
  if (rule.model == LID_REGIONS_EQUAL_GROUPS)
    form_equal_groups (rule, channels, n_channels, &work, regions);
  else
    form_ways (rule, channels, n_channels, &work, regions);
}
