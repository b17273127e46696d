/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/search.h"

#define LID_PLAN_CLASSES 8u      /* of modules, eight bits of a mix each */
#define LID_PLAN_MIX_UNITS 127u  /* modules of a class; the highest bit is left clear */
#define LID_PLAN_MIXED_SIZES 12u /* of channels, five bits of a list each */

#define LID_PLAN_MIX_FAILURES 6u /* after so many in a pass nothing is expected of it any more */

/* What is known of a capacity. */
typedef enum
{
  LID_PLAN_MIX_NOT_ASKED,
  LID_PLAN_MIX_SETTLED,
  LID_PLAN_MIX_OPEN
} LidPlanMixVerdict;

/* What the whole machine may hold and the front does not cover: see node-mixes-totals.c. */
typedef struct
{
  guint64 mix;
  guint waste; /* hands it may cost beside those of modules that are not found */
} LidPlanMixTotal;

/* How one channel can be filled, whichever kinds of a class it is filled with. */
typedef struct
{
  guint64 mix;      /* modules of each class, in units */
  guint size;       /* what the channel carries: an index into the times' sizes */
  guint mib;        /* of the column, in steps of the bounds */
  guint hands;      /* the least of its fillings */
  GArray *fillings; /* guint: indices of those with that many hands */
} LidPlanMixType;

/* The first columns of a node, filled: what they carry and hold. */
typedef struct
{
  guint64 list, mix; /* channels of each size, modules of each class */
  guint hands;       /* the least */
  guint mib;         /* in steps of the bounds */
  guint before;      /* how: an entry of the level before, and the type of the last column */
  guint16 type;
} LidPlanMixEntry;

/* What a node can hold: no other way to hold those modules has both fewer hands and a lower T. */
typedef struct
{
  guint64 mix;
  gint64 time;
  gint64 price; /* at the prices of the pass */
  guint mib, hands;
  guint entry; /* of the last level */
  guint next;  /* the first with more hands, or more capacity */
} LidPlanMix;

typedef struct
{
  guint first;     /* column */
  GArray **levels; /* LidPlanMixEntry: of 0, 1, 2, … columns; NULL: as the first node */
  GArray *mixes;   /* LidPlanMix, by capacity, hands and price */
  guint *from;     /* per step of capacity: the first of at least so much */
} LidPlanMixNode;

/* See node-mixes.c. */
typedef struct _LidPlanNodeMixes LidPlanNodeMixes;
struct _LidPlanNodeMixes
{
  gboolean tried, ready; /* classes, prices and types of the pass */
  gboolean whole;        /* few lists: the nodes' mixes are those of every capacity … */
  gboolean made;
  guint made_for;  /* … or, so many steps of it alone, and of the mixes in totals */
  GArray *totals;  /* LidPlanMixTotal */
  guint64 strange; /* all bits of the classes that are not a found kind */
  guint n_classes;
  guint8 *class_of;                   /* per kind */
  guint class_mib[LID_PLAN_CLASSES];  /* steps of capacity of one module, in units */
  guint class_kind[LID_PLAN_CLASSES]; /* where it is a kind that is found; G_MAXUINT: a size */
  GArray *order[LID_PLAN_CLASSES];    /* guint: kinds of the class, the cheapest module first */
  GArray *cost[LID_PLAN_CLASSES];     /* gint64: of 0, 1, 2, … modules */
  gint64 price[LID_PLAN_CLASSES];     /* of a straight line below that cost … */
  gint64 constant;                    /* … and what all lines begin with, summed up */
  GArray **types;                     /* per group: LidPlanMixType */
  guint least;                        /* steps of capacity: a node that carries less is of no use */
  LidPlanMixNode nodes[2];
  guint n_nodes;
  gboolean alike;   /* two nodes that can be filled alike */
  GArray *times;    /* gint64: every T of some mix, rising */
  guint8 *verdicts; /* per step of capacity: settled, not, or not asked */
  GArray *bar;      /* gint64: see node-mixes-bar.c */
  guint n_bar;      /* hands it knows */
  guint failures;   /* populations that were not what was promised */
  guint64 steps;    /* spent in the descents of the pass */
  guint64 dear;     /* so many are worth the making; 0: not worked out */
};

gboolean lid_plan_node_mixes_make (LidPlanSearch *search);

/* node-mixes-bar.c */
void lid_plan_node_mixes_raise_bar (const LidPlanSearch *search, LidPlanNodeMixes *mixes);
gint64 lid_plan_node_mixes_bar (const LidPlanNodeMixes *mixes, guint hands, guint time);

/* node-mixes-build.c */
gboolean lid_plan_node_mixes_build (LidPlanSearch *search, LidPlanNodeMixes *mixes);
void lid_plan_node_mixes_drop_nodes (const LidPlanSearch *search, LidPlanNodeMixes *mixes);

/* node-mixes-list.c */
void lid_plan_node_mixes_list (const LidPlanSearch *search,
                               const LidPlanNodeMixes *mixes,
                               LidPlanMixNode *node);
void lid_plan_node_mixes_list_times (LidPlanNodeMixes *mixes);

/* node-mixes-totals.c */
gboolean lid_plan_node_mixes_list_totals (LidPlanSearch *search, LidPlanNodeMixes *mixes);

/* node-mixes-types.c */
gboolean lid_plan_node_mixes_sort (const LidPlanSearch *search, LidPlanNodeMixes *mixes);

/* node-mixes-try.c */
gboolean lid_plan_node_mixes_try (LidPlanSearch *search,
                                  LidPlanNodeMixes *mixes,
                                  const LidPlanMix *const *parts);

static inline guint
lid_plan_node_mixes_count (guint64 mix, guint class)
{
  return (guint)(mix >> (8 * class) & 0xff);
}

/* All of its modules; there are no more of them than eight bits hold. */
static inline guint
lid_plan_node_mixes_size (guint64 mix)
{
  return (guint)(mix * G_GUINT64_CONSTANT (0x0101010101010101) >> 56);
}
