/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/ratio.h"
#include "population/survey.h"

/* What a population carries and how fast: product.md 6. The values are made by the files of this
 * folder; the assessment calls them in this order:
 *
 *   lid_figures_init (&figures, board)
 *   lid_running_rate_compute (survey, as_found, &figures)     before the rules: they look at it
 *   … rules …
 *   lid_figures_compute (survey, unusable, &figures)          or, where the machine is stopped,
 *   lid_figures_stop (survey, &figures)
 *   lid_room_compute (survey, stopped)
 *   lid_figures_clear (&figures)
 */

typedef enum
{
  LID_CAP_MODULE,
  LID_CAP_TABLE,
  LID_CAP_PROCESSOR,
  LID_CAP_BOARD,
  LID_CAP_FIRMWARE,
  LID_CAP_SETUP,
  LID_CAP_INVENTORY,
  LID_N_CAPS
} LidCap;

/* One limit of the running rate, the least of its kind. */
typedef struct
{
  LidCap what;
  LidRate rate; /* LID_RATE_UNKNOWN: the limit exists, its value is not told */
  gboolean binding;
} LidRateLimit;

/* What the board's rate table says of one channel as it is fitted. */
typedef enum
{
  LID_ROW_SILENT,  /* nothing on the channel, processor absent, or the board has no table */
  LID_ROW_FOUND,   /* one value, see LidChannelRate.table */
  LID_ROW_UNSURE,  /* an unknown fact chooses between rows that differ */
  LID_ROW_MISSING, /* no row: this channel does not work, and pulls no other down */
} LidRowState;

typedef struct
{
  LidRowState row;
  LidRate table;       /* LID_ROW_FOUND: its value */
  LidRate table_least; /* LID_ROW_UNSURE: least and most of the rows that may hold; else as table */
  LidRate table_most;
  int row_index;         /* into the board's rates: the row that gave table_least, for its source */
  guint32 unknown_facts; /* 1 << LidFact: what left a row in doubt */
  gboolean may_miss;     /* there are rows, and none of them holds for sure */
  gboolean processor_unknown; /* so did the model of the processor */
  int slowest;                /* slot of the module rated least, LID_NOWHERE: none told */
} LidChannelRate;

typedef struct
{
  gint64 mib; /* under the memory mode */
  guint ways;
  guint64 channels; /* bits: 1 << number in the socket, for its first 64 channels */
  guint node;       /* in the socket, from 0 */
} LidRegion;

typedef struct
{
  gint64 capacity_mib;     /* of usable modules that are not persistent; lower bound, see below */
  gint64 usable_mib;       /* of that, under the memory mode */
  gint64 region_mib;       /* its share in regions, in the unit of LidFigures.region_unit */
  guint modules;           /* usable ones, persistent left out; all fitted where stopped */
  gboolean in_use;         /* holds such a module, and the memory mode uses the channel */
  gboolean capacity_known; /* FALSE: a module's size is not told, or the machine is stopped */
} LidChannelFigures;

/* What a memory mode demands of a population, each met or not by itself. */
typedef enum
{
  LID_DEMAND_OFFERED,            /* the board has the mode */
  LID_DEMAND_SETTING,            /* not together with a NUMA split */
  LID_DEMAND_SPARE,              /* no more spare ranks than the board sets aside */
  LID_DEMAND_SIZE,               /* at most half of the capacity is mirrored */
  LID_DEMAND_STEP,               /* in the firmware's step */
  LID_DEMAND_PAIRS,              /* some pair of channels has memory on both sides */
  LID_DEMAND_ALIKE,              /* the channels of a pair are alike slot by slot */
  LID_DEMAND_MODULES_OF_SOCKET,  /* so many modules on a processor */
  LID_DEMAND_MODULES_OF_CHANNEL, /* so many modules on a channel */
  LID_DEMAND_RANKS,              /* each channel has more ranks than are spared */
  LID_N_DEMANDS
} LidDemand;

typedef enum
{
  LID_EFFECT_PLAIN,   /* no mode is asked for, or the machine is stopped */
  LID_EFFECT_TAKEN,   /* the mode takes effect */
  LID_EFFECT_REFUSED, /* a demand is not met: the machine starts unprotected, plain figures hold */
  LID_EFFECT_UNSURE   /* it hangs on something that is not told */
} LidEffect;

typedef struct
{
  LidMode asked;
  LidEffect effect;
  guint spare_ranks;  /* spared: per channel, at least 1 */
  guint32 unmet;      /* bits 1 << LidDemand */
  guint32 open;       /* likewise: cannot be told */
  guint32 *unmet_at;  /* per slot: demands not met there */
  guint32 *missed_at; /* per slot: facts of its module that a demand needs, 1 << LidFact */
} LidModeFigures;

typedef struct
{
  LidRate running;               /* LID_RATE_UNKNOWN: null */
  guint first_region, n_regions; /* into LidFigures.regions */
  LidRatio peak_mbs, whole_mbs;  /* of this socket alone */
} LidSocketFigures;

typedef struct
{
  gint64 fitted_mib;       /* always a number; persistent left out, sizes not told count 0 */
  gboolean starts;         /* FALSE: a finding stops the machine, everything below is null */
  gboolean capacity_known; /* FALSE: a usable module's size is not told: capacity, usable, regions,
                              whole, best, worst and even share are null */
  gint64 capacity_mib;     /* usable modules, soldered included, persistent left out */
  gboolean usable_known;   /* FALSE: nor is it known what the memory mode leaves: usable and all
                              that is made of it are null */
  gint64 usable_mib;       /* under the memory mode */
  LidModeFigures mode;
  LidRatio region_unit; /* MiB of a region's unit; not 1 where a mode leaves a share of each */
  LidRate running;
  LidRateLimit limits[LID_N_CAPS];
  guint n_limits;
  gboolean channels_told; /* FALSE: everything below is null */
  LidRatio peak_mbs;      /* unknown when the rate is, or channels are not told */
  LidRatio whole_mbs, best_mbs, worst_mbs;
  guint32 ways; /* bits 1 << ways: the numbers of channels that could go together; 0: not told */
  LidRatio even_share; /* needs no rate; unknown like the three above where sockets are not told */
  guint channels_in_use;
  guint channels_of_fitted; /* channels of the fitted sockets */
  guint n_sockets;
  LidSocketFigures *sockets;
  guint n_channels;
  LidChannelFigures *channels; /* by board channel index */
  LidChannelRate *rates;       /* by board channel index */
  GArray *regions;             /* LidRegion, socket by socket, in the order formed */
} LidFigures;

/* Largest capacity reachable without pulling anything: settled reading 10. */
typedef struct
{
  guint empty_slots; /* of fitted sockets */
  gint64 listed_mib; /* 0: not told */
  gint64 proven_mib; /* 0: not told */
} LidRoom;

void lid_figures_init (LidFigures *figures, const LidBoard *board);
void lid_figures_clear (LidFigures *figures);
void lid_figures_compute (const LidSurvey *survey, const guint8 *unusable, LidFigures *figures);
void lid_figures_stop (const LidSurvey *survey, LidFigures *figures);
const char *lid_cap_to_text (LidCap cap);
