/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/bounds.h"
#include "planner/floor.h"
#include "planner/times.h"

/* What is left to be decided at a column. */
typedef struct
{
  guint column, mib, hands;
  gint64 shares[3]; /* bounds of what is decided */
  guint found;      /* modules of found kinds that the decided part can hold */
  guint forced;     /* and holds at the least */
} LidPlanPlace;

/* One search: see search.c for what it does and why that is exact. */
typedef struct _LidPlanSearch LidPlanSearch;
struct _LidPlanSearch
{
  LidPlanJudge *judge;
  const LidPlanColumns *columns;
  LidPlanFillings *fillings;
  LidPlanBounds bounds;
  LidPlanTimes times;
  LidPlanFloor floor, hands_floor;
  LidPlanFront *front;
  const LidPlanWatch *watch;                                        /* nullable */
  void (*found) (LidPlanSearch *search, const LidPlanEntry *entry); /* nullable */
  double share_from, share_of; /* of the progress, of the pass at work */
  guint64 steps, budget;
  gboolean quiet;   /* ties are not looked for */
  gboolean gave_up; /* out of budget, or cancelled */

  LidPlanPass pass;
  gboolean begun;            /* steps and floors are those of the pass */
  gboolean filled;           /* so are the tables of the bounds */
  LidPlanVector best;        /* what the populations at hand can at best be */
  gint64 most_cost;          /* of them, for now */
  guint target_mib;          /* likewise in steps of the bounds */
  gint64 target_size;        /* their capacity, MiB */
  gint64 target_time;        /* no T of theirs is smaller; 0: not known */
  const LidPlanVector *seek; /* nullable: look for populations that are equal to this */
  guint asks;                /* left for that */
  gboolean ties_open;        /* they did not suffice */

  /* The part that is decided. */
  guint *picked;   /* per column: its step, an index into the pass's steps of its
                      group */
  guint n_full;    /* columns that carry what the fullest channel does */
  gint64 *rest[3]; /* per column: the least that it and the later ones cost, by
                      their steps */
  guint *member;   /* per column: which of its step's members is chosen */
  guint *chosen;   /* per column: index of its filling */
  guint *used;     /* per kind */
  guint n_used;
  guint n_found; /* modules that are found, in slots that may be emptied and others */
  guint missing; /* found modules that have no slot yet */
  gint64 cost;
  gboolean lean;                 /* the target has prices of its own: see lean.c */
  guint *lean_count;             /* per kind: how many the cheapest mix has, in units */
  gint64 *lean_price;            /* per kind: of a unit */
  gint64 lean_sum;               /* what the bound has beside the prices */
  GArray *sizes[LID_PLAN_SIZES]; /* gint64: what 0, 1, 2, … modules of a size cost: see sizes.c */
  gint64 size_price[LID_PLAN_SIZES];
  guint size_best[LID_PLAN_SIZES]; /* so many are nearest to the line of that price */
  gboolean lean_table;             /* the bounds have a table of them */
  guint64 lean_from;               /* steps before the target */
  gint64 lean_excess;              /* of what is decided */
  guint n_owned;
  guint *owned_kinds; /* kinds of which some are owned */
  guint *room;        /* per such kind and column: what it and the later ones can hold, in units */
  guint *forced;      /* likewise, and what they hold at the least */
  guint *live;        /* per node: channels that carry something or still may */
  guint *node_of;     /* per column: index into live */
  guint n_nodes;
  int *kinds;           /* per slot of the board, scratch */
  gboolean again;       /* the descent is better begun anew, with what node-mixes.c knows */
  guint64 descent_from; /* steps before it */

  struct _LidPlanNodeMixes *node_mixes; /* see node-mixes.c */
  GHashTable *asked; /* populations, by what is chosen, to the checker's verdict */
  GHashTable *apart; /* pairs of steps none of whose fillings go together */
  GHashTable *mixes; /* sets of kinds, bits, some fillings of which were let stand together */
  GHashTable *never; /* sets of fillings, as text, to whether a lasting rule
                        stops them */
};

void lid_plan_search_init (LidPlanSearch *search,
                           LidPlanJudge *judge,
                           const LidPlanColumns *columns,
                           LidPlanFillings *fillings,
                           LidPlanFront *front,
                           const LidPlanWatch *watch);
void lid_plan_search_clear (LidPlanSearch *search);
void lid_plan_search_run (LidPlanSearch *search);
gboolean lid_plan_search_goes_on (LidPlanSearch *search, guint steps);
LidRatio lid_plan_search_speed (const LidPlanSearch *search);
gint64 lid_plan_search_widths (const LidPlanSearch *search);

/* passes.c */
GArray *lid_plan_passes_rates (const LidPlanSearch *search);
GArray *lid_plan_passes_sizes (const LidPlanSearch *search);

/* targets.c */
gint64 lid_plan_targets_usable (const LidPlanSearch *search, gint64 mib);
gboolean lid_plan_targets_are_vain (LidPlanSearch *search, guint mib);
guint lid_plan_targets_apart (const LidPlanSearch *search);
void lid_plan_targets_aim (LidPlanSearch *search, guint mib, guint hands);

/* sizes.c */
void lid_plan_sizes_fill (LidPlanSearch *search);
void lid_plan_sizes_aim (LidPlanSearch *search);
gint64 lid_plan_sizes_of_list (const LidPlanSearch *search, gint64 shares);

/* lean.c */
void lid_plan_lean_aim (LidPlanSearch *search, guint mib, guint hands);
guint lid_plan_lean_surplus (const LidPlanSearch *search, guint column);
gboolean lid_plan_lean_has_table (LidPlanSearch *search);
void lid_plan_lean_list (LidPlanSearch *search);
gint64 lid_plan_lean_short (const LidPlanSearch *search, guint column);
gint64 lid_plan_lean_excess (const LidPlanSearch *search, guint kind, guint used);

/* descent.c */
void lid_plan_descent_run (LidPlanSearch *search, guint mib, guint hands);
gboolean lid_plan_descent_is_done (const LidPlanSearch *search, const LidPlanVector *best);
gboolean lid_plan_descent_is_settled (const LidPlanSearch *search, const LidPlanVector *best);

/* node-mixes.c */
gboolean lid_plan_node_mixes_would_help (const LidPlanSearch *search);
void lid_plan_node_mixes_count_steps (LidPlanSearch *search);

/* node-mixes-settle.c */
void lid_plan_node_mixes_init (LidPlanSearch *search);
void lid_plan_node_mixes_renew (LidPlanSearch *search);
void lid_plan_node_mixes_clear (LidPlanSearch *search);
gboolean lid_plan_node_mixes_is_settled (const LidPlanSearch *search);
gboolean lid_plan_node_mixes_settle (LidPlanSearch *search);

/* rated.c */
LidRate lid_plan_rated_above (const LidPlanSearch *search);
gboolean lid_plan_rated_steps (const LidPlanSearch *search);
gboolean lid_plan_rated_fillings (const LidPlanSearch *search);

/* choice.c */
void lid_plan_choice_run (LidPlanSearch *search);

/* leaf.c */
gboolean lid_plan_leaf_are_apart (LidPlanSearch *search, guint a, guint b);
void lid_plan_leaf_ask (LidPlanSearch *search);
void lid_plan_leaf_try (LidPlanSearch *search);
gboolean lid_plan_leaf_is_stopped (LidPlanSearch *search, guint column);
