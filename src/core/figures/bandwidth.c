/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bandwidth.c: how fast all of the memory can be read once, exactly.
 *
 * Peak is arithmetic: rate × 8 bytes × channels with a usable module. Check bits carry no payload,
 * and the two halves of a DDR5 module make the same 8 bytes. Rates are thirds of a MT/s, so 1 MB/s
 * is 10^6 bytes and 2666 is 21333 MB/s and a third, not 21328.
 *
 * The rest is a model (product.md 6; shared/facts/population.md 4.6). A region of w ways is read at
 * w channel peaks times the board's efficiency. A node (a socket, or a part of it under a NUMA
 * split) is read by its own cores, region after region, and all nodes at once; the slowest node
 * ends the pass. So with S the memory in all, and for a node n
 *
 *   t_n = Σ size_i ÷ (ways_i × peak)      whole = efficiency × S ÷ max t_n
 *
 * and best and worst alike, each node read at its widest or its narrowest region throughout; where
 * a board asks that controllers match, no wider than the narrowest then is (matched.c). A
 * region's size is a multiple of its ways, so Σ size_i ÷ ways_i is whole and nothing is rounded;
 * a memory mode changes the unit of sizes (mode-shares.c), which cancels. The rate cancels in the
 * even share, which is a number even when the rate is not told.
 *
 * What the model leaves out, to be shown with the figures (population.md 4.7): no model knows the
 * firmware; uneven machines measure anywhere in the range; processors with few cores stop lower;
 * a second module on a channel adds a few per cent; and bandwidth is not performance. */
#include "figures/bandwidth.h"

#include "figures/assumptions.h"
#include "figures/matched.h"
#include "figures/regions.h"

/* A time in MiB per channel at unit rate: num ÷ den, den > 0. */
typedef struct
{
  gint64 num;
  gint64 den;
} Time;

/* The longest a node takes; see above. */
typedef struct
{
  Time whole, best, worst;
} Times;

/* Of nothing to read. What is divided by it is not known. */
#define NO_TIMES ((Times){ { 0, 1 }, { 0, 1 }, { 0, 1 } })
/* Where the rate is not told any does for the even share: it cancels. */
#define ANY_RATE 1

/* One MB/s is 8 bytes × a third of a MT/s × 1/10000 of efficiency. */
#define THIRDS 3
#define BYTES 8
#define FULL_EFFICIENCY 10000

static Time
longer (Time a, Time b)
{
  return (__int128)a.num * b.den >= (__int128)b.num * a.den ? a : b;
}

static Times
longest (Times a, Times b)
{
  return (Times){ longer (a.whole, b.whole), longer (a.best, b.best), longer (a.worst, b.worst) };
}

/* How long the regions from @first on take at @rate; none may be narrower than @least. */
static Times
time_node (const GArray *regions, guint first, gint64 rate, guint least)
{
  gint64 size = 0, steps = 0;
  guint most = 1;

  for (guint i = first; i < regions->len; i++)
    {
      const LidRegion *region = &g_array_index (regions, LidRegion, i);

      size += region->mib;
      steps += region->mib / region->ways;
      most = MAX (most, region->ways);
      least = MIN (least, region->ways);
    }
  return (Times){ { steps, rate }, { size, rate * most }, { size, rate * least } };
}

/* Forms the regions of a socket, node by node: neighbours in the order of channels share a node
 * under a NUMA split. */
static Times
form_socket (
    const LidSurvey *survey, LidRegionRule rule, guint socket, gint64 rate, LidFigures *figures)
{
  const LidBoard *board = survey->board;
  const LidBoardSocket *place = &board->sockets[socket];
  guint n_nodes = lid_bandwidth_nodes (board, survey->population->numa_split, socket);
  Times times = NO_TIMES;
  LidRegionChannel channels[LID_BOARD_MAX_CHANNELS];

  for (guint node = 0; node < n_nodes; node++)
    {
      guint n, from = lid_bandwidth_node (board, socket, n_nodes, node, &n) - place->first_channel;
      guint first = figures->regions->len;

      for (guint i = 0; i < n; i++)
        {
          guint channel = place->first_channel + from + i;

          channels[i] = (LidRegionChannel){ figures->channels[channel].region_mib,
                                            board->channels[channel].controller, from + i };
        }
      lid_regions_form (rule, channels, n, figures->regions);
      for (guint i = first; i < figures->regions->len; i++)
        g_array_index (figures->regions, LidRegion, i).node = node;
      times = longest (times, time_node (figures->regions, first, rate,
                                         lid_matched_narrowest (rule, channels, n)));
    }
  return times;
}

/* What the memory mode makes of each B: product.md 6. */
static LidRatio
mode_factor (const LidFigures *figures)
{
  if (figures->mode.effect != LID_EFFECT_TAKEN)
    return lid_ratio (1, 1);
  switch (figures->mode.asked)
    {
    case LID_MODE_PAIRED:
      return lid_assumptions_constant (LID_CONSTANT_PAIRED);
    case LID_MODE_MIRRORED:
      return lid_assumptions_constant (LID_CONSTANT_MIRRORED_READS);
    case LID_MODE_PLAIN:
    case LID_MODE_PARTLY_MIRRORED:
    case LID_MODE_SPARED:
    case LID_N_MODES:
      break;
    }
  return lid_ratio (1, 1);
}

/* @mib read in @time, in MB/s; not known of nothing. */
static LidRatio
bandwidth (const LidFigures *figures, gint64 mib, Time time, guint efficiency)
{
  return lid_ratio_mul (lid_ratio_mul (lid_ratio (mib, time.num), mode_factor (figures)),
                        lid_ratio (time.den * BYTES * efficiency, THIRDS * FULL_EFFICIENCY));
}

static gint64
socket_mib (const LidBoardSocket *socket, const LidFigures *figures)
{
  gint64 mib = 0;

  for (guint i = 0; i < socket->n_channels; i++)
    mib += figures->channels[socket->first_channel + i].region_mib;
  return mib;
}

/* The rate of a socket; of the machine where it has no module of its own. */
static LidRate
rate_of (const LidFigures *figures, guint socket)
{
  LidRate rate = figures->sockets[socket].running;

  return rate != LID_RATE_UNKNOWN ? rate : figures->running;
}

/* Peak and counts; a channel whose socket is not told belongs to a processor that is there. */
static void
count_channels (const LidSurvey *survey, LidFigures *figures)
{
  const LidBoard *board = survey->board;
  guint in_use[LID_BOARD_MAX_SOCKETS + 1] = { 0 };
  gint64 thirds = 0;

  for (guint i = 0; i < board->n_channels; i++)
    {
      int socket = board->channels[i].socket;

      if (socket != LID_NOWHERE && !survey->population->processors[socket].fitted)
        continue;
      figures->channels_of_fitted++;
      if (!figures->channels[i].in_use)
        continue;
      figures->channels_in_use++;
      in_use[socket == LID_NOWHERE ? LID_BOARD_MAX_SOCKETS : (guint)socket]++;
    }
  for (guint s = 0; s < board->n_sockets; s++)
    {
      figures->sockets[s].peak_mbs = lid_bandwidth_peak (figures->sockets[s].running, in_use[s]);
      thirds += (gint64)rate_of (figures, s) * in_use[s];
    }
  thirds += (gint64)figures->running * in_use[LID_BOARD_MAX_SOCKETS];
  if (figures->running != LID_RATE_UNKNOWN)
    figures->peak_mbs = lid_ratio (thirds * BYTES, THIRDS);
}

/* Regions were formed in units (mode-shares.c); what is shown is MiB, rounded so that all of them
 * add up to what is usable. */
static void
show_sizes (LidFigures *figures)
{
  gint64 so_far = 0, told = 0;

  for (guint i = 0; i < figures->regions->len; i++)
    {
      LidRegion *region = &g_array_index (figures->regions, LidRegion, i);
      gint64 upto;

      so_far += region->mib;
      upto = lid_ratio_round (lid_ratio_mul (lid_ratio (so_far, 1), figures->region_unit));
      region->mib = upto - told;
      told = upto;
    }
}

/* Regions are made inside a socket. */
static gboolean
sockets_are_told (const LidBoard *board)
{
  for (guint i = 0; i < board->n_channels; i++)
    if (board->channels[i].socket == LID_NOWHERE)
      return FALSE;
  return TRUE;
}

/**
 * lid_bandwidth_splits:
 * @board: a board
 * @nodes: a NUMA split
 *
 * Returns: whether setup can cut a processor so: the board lists it, or does not say
 */
gboolean
lid_bandwidth_splits (const LidBoard *board, guint nodes)
{
  for (guint i = 0; i < board->n_numa; i++)
    if (board->numa[i] == nodes)
      return TRUE;
  return board->n_numa == 0 || nodes <= 1;
}

/**
 * lid_bandwidth_peak:
 * @rate: a running rate
 * @channels: how many run at it
 *
 * Returns: MB/s, exactly; unknown when the rate is
 */
LidRatio
lid_bandwidth_peak (LidRate rate, guint channels)
{
  if (rate == LID_RATE_UNKNOWN)
    return LID_RATIO_UNKNOWN;
  return lid_ratio ((gint64)rate * channels * BYTES, THIRDS);
}

/**
 * lid_bandwidth_compute:
 * @survey: a population of a board whose channels are told
 * @figures: (inout): capacity and rate stand in it; peak, regions, expected bandwidth, even share
 * and channel counts are added
 *
 * Where a usable module's size, or the socket of a channel, is not told, there are no regions and
 * nothing made of them; the peak and the counts stand. Source: product.md 6, "Peak", "Expected
 * bandwidth", "Even share".
 */
void
lid_bandwidth_compute (const LidSurvey *survey, LidFigures *figures)
{
  const LidBoard *board = survey->board;
  LidRegionRule rule = lid_regions_rule (board, survey->population);
  Times times = NO_TIMES;
  gint64 mib = 0, all_channels = 0;
  gboolean rated = figures->running != LID_RATE_UNKNOWN;

  figures->ways = rule.ways;
  count_channels (survey, figures);
  if (!figures->usable_known || !sockets_are_told (board))
    return;
  for (guint s = 0; s < board->n_sockets; s++)
    {
      LidSocketFigures *socket = &figures->sockets[s];
      gint64 rate = rated ? rate_of (figures, s) : ANY_RATE, of_socket;
      Times own;

      if (!survey->population->processors[s].fitted)
        continue;
      socket->first_region = figures->regions->len;
      own = form_socket (survey, rule, s, rate, figures);
      socket->n_regions = figures->regions->len - socket->first_region;
      of_socket = socket_mib (&board->sockets[s], figures);
      if (rated)
        socket->whole_mbs = bandwidth (figures, of_socket, own.whole, board->efficiency);
      times = longest (times, own);
      mib += of_socket;
      all_channels += rate * board->sockets[s].n_channels;
    }
  show_sizes (figures);
  figures->even_share
      = lid_ratio_mul (lid_ratio_mul (lid_ratio (mib, times.whole.num), mode_factor (figures)),
                       lid_ratio (times.whole.den, all_channels));
  if (!rated)
    return;
  figures->whole_mbs = bandwidth (figures, mib, times.whole, board->efficiency);
  figures->best_mbs = bandwidth (figures, mib, times.best, board->efficiency);
  figures->worst_mbs = bandwidth (figures, mib, times.worst, board->efficiency);
}

/**
 * lid_bandwidth_nodes:
 * @board: a board
 * @split: the NUMA split that setup asks for; 0: not told
 * @socket: a socket's index
 *
 * Returns: into how many nodes that processor is cut: one where the board knows no such split
 */
guint
lid_bandwidth_nodes (const LidBoard *board, guint split, guint socket)
{
  return lid_bandwidth_splits (board, split) ? CLAMP (split, 1, board->sockets[socket].n_channels)
                                             : 1;
}

/**
 * lid_bandwidth_node:
 * @board: a board
 * @socket: a socket's index
 * @nodes: into how many nodes it is cut: lid_bandwidth_nodes()
 * @node: which of them, from 0
 * @n: (out): how many channels it has
 *
 * Neighbours in the order of channels share a node.
 *
 * Returns: the first channel of the node
 */
guint
lid_bandwidth_node (const LidBoard *board, guint socket, guint nodes, guint node, guint *n)
{
  const LidBoardSocket *place = &board->sockets[socket];
  guint from = node * place->n_channels / nodes;

  *n = (node + 1) * place->n_channels / nodes - from;
  return place->first_channel + from;
}
