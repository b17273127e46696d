/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/planner.h"

/* What sums with a module of unknown price come to: larger than any sum of
 * prices. */
#define LID_COST_UNKNOWN (G_MAXINT64 / 8192)
#define LID_MOST_KINDS 4096u

/* What a plan may do with a slot. */
typedef enum
{
  LID_SLOT_FREE,  /* anything at hand may go in */
  LID_SLOT_STAYS, /* soldered or persistent memory: as found */
  LID_SLOT_CLEAR, /* of no channel, or of a processor that is not there: stays
                     empty */
} LidSlotFate;

/* Modules that no rule and no figure can tell apart, or that may be exchanged for one another all
 * the same: see candidates.c. */
typedef struct
{
  LidModule *module;  /* borrowed: the first of them */
  gboolean nameless;  /* none of them is alike to another; all are at hand */
  guint found;        /* so many sit in slots that may be emptied, as found */
  guint owned;        /* found, and on the tray: these cost nothing */
  guint supply;       /* owned, and to be had */
  GArray *goods;      /* guint: indices of goods, cheapest first, without a price last; no more
                         than the machine has slots for */
  guint64 rows_limit; /* rows.c: no dearer one is among them */
  guint rows_kept;    /* likewise: so many stood when they were sorted last */
  GArray *cost;       /* gint64: of buying 0, 1, 2, …; as far as slots or supply go */
  gint64 least_price; /* of the cheapest one; LID_COST_UNKNOWN where none has a
                         price or is there */
  GPtrArray *tray;    /* LidModule, borrowed */
} LidPlanKind;

typedef struct
{
  GPtrArray *kinds; /* LidPlanKind: found first, then the tray's, then goods by
                       price */
  int *found_kind;  /* per slot: the kind that is found there and may go;
                       LID_NOWHERE */
  guint8 *fate;     /* per slot: LidSlotFate */
  guint n_slots;
} LidCandidates;

LidCandidates *lid_candidates_new (const LidPlanQuestion *question, const LidWish *wish);
void lid_candidates_free (LidCandidates *candidates);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidCandidates, lid_candidates_free)
gint64 lid_candidates_cost (const LidPlanKind *kind, guint used);
gboolean lid_candidates_interchangeable (const LidModule *a, const LidModule *b);

/* rows.c */
void lid_plan_rows_add (LidPlanKind *kind, const LidPlanQuestion *question, guint row);
void lid_plan_rows_settle (LidPlanKind *kind, const LidPlanQuestion *question);

static inline const LidPlanKind *
lid_candidates_kind (const LidCandidates *candidates, guint kind)
{
  return candidates->kinds->pdata[kind];
}
