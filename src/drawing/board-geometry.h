/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/measure.h"
#include "drawing/slot-look.h"

/* The board on the screen in numbers: where each slot, vein, processor and note lies, and what a
 * point hits. Pixels at scale 1 from the drawing's top left corner. Where slots lie depends on the
 * board and the view alone, never on what sits in them or what the checker says: nothing moves
 * under the hand. Nothing here draws (draw-board.h does) and nothing here judges. */

#define LID_BOARD_CELL 44.0     /* a slot's height at zoom 1: what a gloved hand hits (look.md) */
#define LID_BOARD_LEAST_PX 13.0 /* type at zoom 1 */
#define LID_BOARD_NOTE_LINES 4

typedef struct
{
  gboolean lid_off; /* where the slots lie on the board; drawn by channel where no place is told */
  double width;     /* of the room there is */
  double height;
  double zoom;       /* 0: as large as fits */
  double text_scale; /* 1: the desktop's usual type */
} LidBoardView;

typedef struct
{
  LidBox box;       /* with the latches */
  LidBox hit;       /* never overlaps another's */
  gboolean upright; /* drawn turned by 90 degrees, read from below */
  int leaf;         /* LID_NOWHERE in lid off */
} LidPlacedSlot;

typedef enum
{
  LID_VEIN_CURVE, /* from the midrib to the slots' edge */
  LID_VEIN_RULE,  /* lid off: a straight line under its slots */
} LidVeinForm;

/* A channel: its vein and its words. */
typedef struct
{
  int channel;
  int leaf; /* LID_NOWHERE in lid off */
  LidVeinForm form;
  double x0, y0, x1, y1;          /* from the root to the slots */
  double width;                   /* what it carries; idle: thin */
  gboolean idle;                  /* broken line */
  double spine_top, spine_bottom; /* along the slots' edge; equal: none */
  LidBox hit;                     /* words and vein's end: a click here zooms in */
  LidBox caption;
  LidType type;
  const char *name;    /* "channel A", or "A" where there is no room */
  double name_width;   /* in bold */
  const char *carries; /* "64 GB · 23.5 GB/s", "carries nothing", NULL: no room */
} LidVein;

/* A processor with its channels, or a plain group of slots whose channels are not told. */
typedef struct
{
  int socket; /* LID_NOWHERE: not told */
  gboolean list;
  gboolean fitted;
  LidBox box; /* the processor's, or the heading's */
  LidType type, under_type;
  const char *title; /* "processor 1" */
  const char *under; /* "up to 3200 MT/s", "not fitted", "channel not told"; nullable */
  double stem_x, stem_top, stem_bottom; /* midrib; top = bottom: none */
  double stem_width;                    /* at the bottom; 0: idle, broken */
} LidPlacedLeaf;

typedef struct
{
  double x0, y0, x1, y1;
} LidNoteLine;

/* What the checker says, beside the board. */
typedef struct
{
  const LidFinding *finding; /* the worst it stands for, borrowed; NULL: "and 3 more" */
  guint n_findings;          /* folded into this note, by rule; at least 1 */
  LidGrade grade;
  LidBox box;
  LidBox swatch, title_box, text_box;
  LidBox link; /* the remedy; width 0: none */
  LidType title_type, text_type;
  const char *title;  /* "stops: first slot empty" */
  const char *text;   /* nullable */
  const char *remedy; /* nullable */
  guint n_lines;
  LidNoteLine lines[LID_BOARD_NOTE_LINES];
} LidBoardNote;

typedef struct
{
  const LidBoard *board;
  double width, height; /* of the drawing, at least the view's */
  double zoom;          /* as it came out */
  gboolean lid_off;     /* as it came out */
  LidBox outline;       /* lid off: the board's edge; width 0: none */
  LidBox left, right;   /* margins for notes; width 0: none */
  LidBox foot;          /* where there is no margin: a line for what the checker says */
  guint n_slots;
  LidPlacedSlot *slots;
  LidSlotLook *looks; /* their names as they are told at this size */
  LidSlotShape shape; /* lengths in pixels; shape.lines 0: the name alone */
  GArray *leaves;     /* LidPlacedLeaf */
  GArray *veins;      /* LidVein */
  GArray *notes;      /* LidBoardNote, worst first */
  GStringChunk *texts;
  /* for lid_board_geometry_again() */
  LidBoardView view;
  gpointer kept; /* what does not depend on what sits in the slots */
} LidBoardGeometry;

typedef enum
{
  LID_HIT_NOTHING,
  LID_HIT_SLOT,      /* index: slot */
  LID_HIT_CHANNEL,   /* index: channel of the board */
  LID_HIT_PROCESSOR, /* index: socket */
  LID_HIT_NOTE,      /* index: into notes */
  LID_HIT_REMEDY,    /* index: into notes */
  LID_HIT_WHY,       /* a note's title; index: into notes */
} LidHitKind;

typedef struct
{
  LidHitKind kind;
  guint index;
} LidHit;

typedef enum
{
  LID_WAY_LEFT,
  LID_WAY_RIGHT,
  LID_WAY_UP,
  LID_WAY_DOWN,
} LidWay;

LidBoardGeometry *lid_board_geometry_new (const LidBoard *board,
                                          const LidPopulation *population,
                                          const LidAssessment *assessment,
                                          const LidPopulation *before,
                                          const LidBoardView *view,
                                          const LidMeasure *measure);
LidBoardGeometry *lid_board_geometry_again (const LidBoardGeometry *like,
                                            const LidPopulation *population,
                                            const LidAssessment *assessment,
                                            const LidPopulation *before,
                                            const LidBoardView *view,
                                            const LidMeasure *measure);
void lid_board_geometry_free (LidBoardGeometry *geometry);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidBoardGeometry, lid_board_geometry_free)
void lid_board_geometry_tell (LidBoardGeometry *geometry, guint slot, const char *channel);
LidHit lid_board_geometry_hit (const LidBoardGeometry *geometry, double x, double y);
int lid_board_geometry_neighbour (const LidBoardGeometry *geometry, guint slot, LidWay way);

static inline LidPlacedLeaf *
lid_board_geometry_leaf (const LidBoardGeometry *geometry, guint i)
{
  return &g_array_index (geometry->leaves, LidPlacedLeaf, i);
}

static inline LidVein *
lid_board_geometry_vein (const LidBoardGeometry *geometry, guint i)
{
  return &g_array_index (geometry->veins, LidVein, i);
}

static inline LidBoardNote *
lid_board_geometry_note (const LidBoardGeometry *geometry, guint i)
{
  return &g_array_index (geometry->notes, LidBoardNote, i);
}
