/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board-rules.h"
#include "facts/module.h"

#include <json-glib/json-glib.h>

/* A board: what slots a machine has, on which channels, and what its maker says of them. Made by
 * board-file.c from JSON or by board-derive.c from an inventory; read-only after that and counted.
 *
 * Sockets, channels and slots are flat arrays in the order of the definition; everything refers to
 * them by index. Where a thing is not known, its index is LID_NOWHERE, its number 0, its text NULL
 * and its list empty: a board is silent where it knows nothing, and a silent board is not a board
 * that forbids (product.md 3). */

#define LID_NOWHERE (-1)
#define LID_BOARD_MAX_SOCKETS 16u
#define LID_BOARD_MAX_CHANNELS 256u
#define LID_BOARD_MAX_SLOTS 1024u
/* Share of the peak a streaming read reaches where a board does not say, in 1/10000; typical, from
 * memory (population.md 4.6). */
#define LID_BOARD_EFFICIENCY 8000

typedef struct
{
  char *id;        /* unique on the board */
  char *name;      /* as printed on the board or reported; need not be unique */
  char *label;     /* what people call it where the name is not unique, else NULL: slot-names.c */
  int socket;      /* index or LID_NOWHERE: not told */
  int channel;     /* index into channels or LID_NOWHERE: not told */
  guint position;  /* in the channel, from 1 = to be filled first; 0: not told */
  char *latch;     /* colour as the technician sees it, a word of ours; NULL: not known */
  char *latch_hue; /* "#rrggbb" for the drawing; NULL: not known */
  gboolean placed; /* the next five are known */
  double x, y, width, height; /* mm from the board's top left corner, of the slot's outline */
  double turn;                /* degrees clockwise */
  gint32 max_height;          /* clearance, hundredths of a mm; 0: not told */
  LidModule *soldered;        /* what is soldered here instead of a slot; NULL: a real slot */
} LidBoardSlot;

typedef struct
{
  char *name;
  int socket;
  int controller; /* from 1 in its socket; 0: not told */
  guint n_slots;
  guint *slots; /* indices, in the order of position */
} LidBoardChannel;

typedef struct
{
  char *name; /* as people call it, "1" */
  guint n_channels;
  guint first_channel; /* channels of a socket are neighbours */
  guint n_controllers;
} LidBoardSocket;

/* What modules that draw more than so many watts need: other fans, a baffle, cooler air. */
typedef struct
{
  guint above_w;
  char *needs; /* in the words of the board's documents */
  char *source;
} LidAirflowNeed;

/* A row of the rate table. 0 or an empty set on an axis: any. Values are as given by the maker. */
typedef struct
{
  guint32 generations; /* bits 1 << LidGeneration */
  guint32 kinds;       /* bits 1 << LidKind */
  guint least_ranks;   /* of the module with the most ranks on the channel, as this board counts */
  guint most_ranks;
  guint least_filled; /* modules on the channel */
  guint most_filled;
  guint slots; /* slots on the channel, soldered ones not counted */
  guint voltage_mv;
  int processor; /* index into processors, LID_NOWHERE: any */
  LidRate rate;
  char *source;
} LidRateRow;

typedef enum
{
  LID_LIMIT_MODULE,
  LID_LIMIT_CHANNEL,
  LID_LIMIT_SOCKET,
  LID_LIMIT_MACHINE
} LidLimitWhat;
typedef enum
{
  LID_LISTED,
  LID_BENCH_PROVEN,
  LID_ASSUMED
} LidLimitBasis;

typedef struct
{
  LidLimitWhat what;
  guint32 kinds; /* 0: any */
  gint64 mib;
  LidLimitBasis basis;
  char *source;   /* listed and assumed: from where */
  char *who;      /* bench-proven: all three mandatory */
  char *when;     /* ISO date */
  char *firmware; /* level it was seen with */
} LidLimit;

typedef struct
{
  char *id;
  char *name;
  /* Ceiling by kind, LID_RATE_UNKNOWN: none told; at LID_KIND_UNKNOWN: of kinds not named. */
  LidRate rate[LID_N_KINDS];
  gint64 most_mib; /* memory one processor addresses; 0: not told */
  char *source;
} LidProcessorModel;

/* One thing a firmware level brings: modules whose fact is at least this need it. */
typedef struct
{
  LidFact fact;
  gint32 at_least;     /* in the fact's own unit */
  gboolean non_binary; /* capacity: 24, 48, 96 GB and the like */
} LidFirmwareGift;

typedef struct
{
  char *level;
  LidRate ceiling; /* the fastest this level sets; LID_RATE_UNKNOWN: none told */
  GArray *gifts;   /* LidFirmwareGift that come with this level */
  char *source;
} LidFirmwareLevel;

typedef enum
{
  LID_REGIONS_LAYERED,
  LID_REGIONS_WAYS,
  LID_REGIONS_EQUAL_GROUPS
} LidRegionModel;
typedef enum
{
  LID_OWN_MEMORY_SILENT,
  LID_OWN_MEMORY_PENALTY,
  LID_OWN_MEMORY_REQUIRED
} LidOwnMemory;

/* What modes of memory there are; product.md 6. */
typedef enum
{
  LID_MODE_PLAIN,
  LID_MODE_MIRRORED,
  LID_MODE_PARTLY_MIRRORED,
  LID_MODE_SPARED,
  LID_MODE_PAIRED,
  LID_N_MODES
} LidMode;

/* How much alike the two channels of a pair must be, slot by slot. */
typedef enum
{
  LID_ALIKE_NOT_TOLD,     /* a board silent on it demands nothing (settled reading 8) */
  LID_ALIKE_CAPACITY,     /* size */
  LID_ALIKE_ORGANISATION, /* size, kind, ranks, chip width */
  LID_ALIKE_PART          /* the same part */
} LidAlike;

typedef struct
{
  guint a, b; /* channels of one socket, by board channel index */
} LidChannelPair;

/* A memory mode the board offers besides plain, with what it demands of a population; 0 or empty:
 * the board does not say. Source of the demands: shared/facts/population.md 3. */
typedef struct
{
  LidMode mode;
  const char *id;       /* its word in the file; static */
  JsonNode *definition; /* as read */
  guint n_pairs;        /* of all sockets; spared: none */
  LidChannelPair *pairs;
  LidAlike alike;
  guint64 modules_of_socket;      /* bits 1 << count: so many modules on a processor with any */
  guint least_modules_of_channel; /* on each channel in use */
  guint most_spare_ranks;         /* spared */
  guint least_ranks_of_channel;   /* spared: on each channel in use, beyond one more than spared */
  gint64 step_mib;                /* partly mirrored: the firmware's step */
  guint32 not_with;               /* bits 1 << LidMode; bit 0: a NUMA split */
  char *source;                   /* nullable */
} LidBoardMode;

/* A module that keeps others out, within its own channel or on the other channels of its
 * processor: rules that cross slots and channels. Source: shared/facts/population.md P12, P13. */
typedef struct
{
  guint32 kinds;            /* of the module; 0: any */
  guint least_module_ranks; /* label ranks; 0: any */
  guint position;           /* in its channel; 0: any */
  LidScope scope;           /* LID_SCOPE_CHANNEL: its own; LID_SCOPE_SOCKET: the others there */
  guint empty_position;     /* the slot that stays empty there; 0: none */
  guint most_modules;       /* on a channel there; 0: no limit */
  LidStops stops;
  char *source;
} LidExclusion;

/* What tells a machine of this board from others: SMBIOS types 1 and 2, the multiset of (locator,
 * bank), slot count, arrays. Source: product.md 3. */
typedef struct
{
  char *product; /* nullable */
  char *board;   /* nullable */
  guint n_slots;
  guint n_arrays;
  char *names; /* SHA-256, hex, of the sorted "locator|bank" lines */
} LidFingerprint;

/* How a source spells a slot: locator and bank as that format reports them. */
typedef struct
{
  char *format; /* "smbios", "redfish", … */
  guint slot;
  char *locator;
  char *bank;
} LidSpelling;

/* More numbers of channels that go together, with some processors or under a NUMA split. */
typedef struct
{
  guint32 ways;
  int processor; /* all that are fitted are of this model; LID_NOWHERE: any */
  guint nodes;   /* a processor is cut into so many; 1: it is not cut; 0: any */
  char *source;
} LidWaysAlso;

typedef struct _LidBoard
{
  int ref_count;  /* atomic */
  JsonNode *json; /* the definition as read; NULL for a board made here until it is written */
  char *id;
  char *name;
  char *about; /* one sentence, nullable */
  char *source;
  guint version;
  char *hash;                 /* SHA-256, hex, of the definition; NULL while json is */
  gboolean derived;           /* made from an inventory: silent on order, ways, limits, places */
  gboolean channels_told;     /* every slot has a channel */
  gboolean sockets_told;      /* every slot has a socket */
  gboolean placed;            /* every slot has a place: "lid off" can be drawn */
  double width_mm, height_mm; /* of the drawing area, when placed */

  guint n_sockets;
  LidBoardSocket *sockets;
  guint n_channels;
  LidBoardChannel *channels;
  guint n_slots;
  LidBoardSlot *slots;

  guint32 generations; /* taken; 0: not told */
  guint32 kinds;       /* taken; 0: not told */
  LidForm form;        /* taken; LID_FORM_UNKNOWN: not told, but the kinds may tell it */
  guint32 voltages;    /* LidVoltages it supplies; 0: not told */
  gint32 max_height;   /* hundredths of a mm; 0: not told */
  guint n_sizes;       /* of modules, as the maker's documents list them; 0: not told */
  gint64 *sizes;       /* MiB */
  char *sizes_source;  /* nullable */
  gboolean persistent_taken;
  gboolean needs_ecc;
  gboolean has_blanks; /* came with blanks for empty slots */
  gboolean has_baffle;
  guint n_airflow_needs;
  LidAirflowNeed *airflow_needs;

  guint n_processors;
  LidProcessorModel *processors;
  guint n_rates;
  LidRateRow *rates;    /* the first that holds counts; none at all: no table, not "no row" */
  LidRate rate_ceiling; /* of the board itself, whatever is fitted; LID_RATE_UNKNOWN: none told */
  gboolean rate_per_socket;
  LidRankCount rank_count;
  guint load_reduced_ranks; /* a load-reduced module counts as so many; 0: as rank_count says */
  guint n_rank_limits;
  LidRankLimit *rank_limits;
  guint n_exclusions;
  LidExclusion *exclusions;
  LidMixRule mixes[LID_N_MIXES];

  guint n_order;
  guint *order; /* slots in the order of fitting; empty: not told */
  LidGrade order_grade;
  char *order_source, *lone_source, *larger_first_source; /* nullable: the board's own */
  guint n_lone;
  guint *lone; /* slots where a lone module may sit; empty: not told */
  LidGrade lone_grade;
  LidStops lone_stops;
  LidGrade larger_first_grade; /* higher rank or larger capacity first */
  gboolean larger_first_told;
  LidOwnMemory own_memory;
  guint own_modules; /* where it is required: so many modules at each processor, at least 1 */
  char *own_modules_source; /* nullable: the board's own */
  gboolean equal_sockets_told;
  LidGrade equal_sockets_grade;

  gboolean region_model_told;
  LidRegionModel region_model;
  guint32 ways;      /* bits 1 << ways; 0: not told */
  char *ways_source; /* of model and ways; nullable */
  /* Nullable: the source that says that channels of several controllers go together only as many of
   * each. */
  char *matched_source;
  guint n_ways_also;
  LidWaysAlso *ways_also;
  guint n_numa;
  guint *numa;        /* splits offered */
  char *numa_source;  /* nullable */
  guint32 numa_equal; /* bits 1 << nodes: splits in which all channels of a node hold the same */
  char *numa_equal_source; /* nullable */
  guint efficiency;        /* share of the peak a streaming read reaches, in 1/10000 */
  char *efficiency_source;

  gboolean modes_told; /* the board says which modes it has, be it none */
  guint n_modes;
  LidBoardMode *modes;
  guint n_limits;
  LidLimit *limits;
  guint n_firmware;
  LidFirmwareLevel *firmware; /* oldest first */

  guint n_fingerprints;
  LidFingerprint *fingerprints;
  guint n_spellings;
  LidSpelling *spellings;
} LidBoard;

gint32 lid_board_clearance (const LidBoard *board, guint slot);
LidBoard *lid_board_new (void);
LidBoard *lid_board_ref (LidBoard *board);
void lid_board_unref (LidBoard *board);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidBoard, lid_board_unref)

int lid_board_find_slot (const LidBoard *board, const char *id_or_name);
const char *lid_board_name_slot (const LidBoard *board, guint slot);
int lid_board_find_firmware (const LidBoard *board, const char *level);
guint32 lid_board_ranks_missing (const LidBoard *board, const LidModule *module);
guint lid_board_count_ranks (const LidBoard *board, const LidModule *module, gboolean *known);
const LidBoardMode *lid_board_find_mode (const LidBoard *board, LidMode mode);
guint lid_board_order_of (const LidBoard *board, guint slot);
