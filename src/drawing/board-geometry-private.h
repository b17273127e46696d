/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/board-geometry.h"

#define LID_BOARD_N_NAMES                                                                          \
  3 /* whole, without what the leaf shares, without what the channel shares */

#define LID_BOARD_LEAST_CELL 18.0 /* holds a name of LID_BOARD_LEAST_PX */

/* A channel and its slots; where channels are not told, one slot by itself. */
typedef struct
{
  int channel;
  guint n_slots;
  guint *slots; /* borrowed */
} LidTwig;

/* A processor with its channels, or a list of slots whose channels are not told. */
typedef struct
{
  int socket;
  gboolean list;
  guint first_twig, n_twigs;
} LidBranch;

/* How the branches are spread over the room; lengths in pixels. */
typedef struct
{
  guint across, rows; /* branches side by side, and rows of them */
  guint abreast;      /* slots of a channel side by side; of a list, columns */
  double cell, column;
  double spread; /* what is left of the height, between channels */
  double quality;
} LidBoardFit;

/* What an edit leaves as it is. */
typedef struct
{
  gboolean spread; /* there is a fit: by channel */
  LidBoardFit fit;
  double name_em[LID_BOARD_N_NAMES], words_em[LID_N_WORDS];
} LidBoardKept;

/* What follows from a cell's height. */
typedef struct
{
  double name, caption_px; /* type */
  double gap, caption, unit_gap, root, root_gap, heading, between;
} LidBoardScale;

#define LID_BOARD_N_CARRIED 4

/* What a vein carries, in words: made once for all that carry the same. */
typedef struct
{
  gint64 mib;
  LidRate rate;
  const char *words[3]; /* the capacity, and with the bandwidth; [0] is not used */
} LidCarried;

/* Most channels carry what another one carries: the last few. */
typedef struct
{
  gboolean any;
  LidRate fastest;
  guint n; /* made so far */
  LidCarried carried[LID_BOARD_N_CARRIED];
} LidVeinMemory;

typedef struct
{
  LidBoardGeometry *g;
  const LidBoardGeometry *like; /* nullable: of the same board and view, before an edit */
  const LidBoard *board;
  const LidPopulation *population;
  const LidAssessment *assessment; /* nullable */
  const LidBoardView *view;
  const LidMeasure *measure;
  double type;    /* text scale */
  gboolean noted; /* there are margins */
  LidBox area;    /* room for the board, without the margins */
  guint *alone;   /* slot i at [i], for twigs of one */
  GArray *twigs, *branches;
  guint most_abreast;
  gboolean latched; /* latch colours are told */
  /* by how much of a slot's name is told: board-geometry-names.c */
  const char **names[LID_BOARD_N_NAMES];
  guint n_names;                     /* how many of these may be shown */
  double name_em[LID_BOARD_N_NAMES]; /* the widest, for type of 1 px */
  double words_em[LID_N_WORDS];
  LidVeinMemory vein;
} LidBoardPlan;

/* Of a geometry and of what it is made like. */
static inline LidBoardKept *
lid_board_geometry_kept (const LidBoardGeometry *geometry)
{
  return geometry->kept;
}

static inline LidTwig *
lid_board_plan_twig (const LidBoardPlan *plan, guint i)
{
  return &g_array_index (plan->twigs, LidTwig, i);
}

static inline LidBranch *
lid_board_plan_branch (const LidBoardPlan *plan, guint i)
{
  return &g_array_index (plan->branches, LidBranch, i);
}

/* How much a slot tells at a size. */
typedef struct
{
  int words;      /* LidWords, or -1: the name alone */
  gboolean below; /* the words, under the name */
  guint names;
  gboolean fits; /* else not even the shortest name does */
  double worth;
} LidBoardTold;

/* board-geometry-names.c */
void lid_board_names_find (LidBoardPlan *plan);

/* board-geometry-fit.c */
LidBoardScale lid_board_scale (const LidBoardPlan *plan, double cell);
LidBoardScale lid_board_fit_scale (const LidBoardPlan *plan, const LidBoardFit *fit);
double lid_board_fit_middle (const LidBoardFit *fit);
double lid_board_fit_leaf_width (const LidBoardPlan *plan,
                                 const LidBranch *branch,
                                 const LidBoardFit *fit);
double lid_board_fit_leaf_height (const LidBoardPlan *plan,
                                  const LidBranch *branch,
                                  const LidBoardFit *fit);
LidBoardFit lid_board_fit_find (const LidBoardPlan *plan);
const LidBoardGeometry *lid_board_fit_like (const LidBoardGeometry *like, const LidBoardView *view);
const LidBoardFit *lid_board_fit_take (const LidBoardPlan *plan);

/* board-geometry-words.c */
double lid_board_words_need (const LidBoardPlan *plan, double cell, int words, guint names);
LidBoardTold lid_board_words_told (const LidBoardPlan *plan, double cell, double column);
void lid_board_words_measure (LidBoardPlan *plan);
void lid_board_words_shape (LidBoardPlan *plan, double cell, double column);
void lid_board_words_vein (LidBoardPlan *plan, LidVein *vein, double room, double most_width);
void lid_board_words_leaf (LidBoardPlan *plan, LidPlacedLeaf *leaf);

/* board-geometry-leaf.c, board-geometry-lid.c */
void lid_board_leaf_place (LidBoardPlan *plan, const LidBoardFit *fit);
double lid_board_lid_cell (const LidBoardPlan *plan);
gboolean lid_board_lid_place (LidBoardPlan *plan);
