/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet-balance.h"

#define LID_BALANCE_ACROSS_GAP 4.0 /* between leaves side by side */
#define LID_BALANCE_SLOT_GAP 0.7
#define LID_BALANCE_LIST_HEAD 6.0 /* heading of slots whose channel is not told */
#define LID_BALANCE_TRAILER 5.0   /* mark at a slot's right end */

/* How the machine is set into one side; the same on both. */
typedef struct
{
  guint across;        /* leaves beside each other */
  guint words;         /* of a slot: 0 none, 1 what is in it, 2 its name too */
  gboolean stacked;    /* the slots of a channel one below the other, else side by side */
  gboolean long_label; /* "channel A", else "A" */
  double pt;           /* of the words */
  double leaf, column, middle, label; /* widths, mm */
  double name, needed;                /* width of the longest name; of a slot with its words */
  double unit_gap;                    /* between channels */
  double leaf_gap;                    /* between leaves one below the other */
  double head;                        /* processor and the air below it */
  double cell;                        /* height of a slot */
  double height;                      /* of the whole */
  double quality;
} LidBalanceFit;

/* Of channel names: where slots have no words there is no room for large ones. */
static inline LidType
lid_sheet_balance_fit_type (const LidBalanceFit *fit)
{
  return (LidType){ fit->words > 0 ? 8 : 6.5, FALSE };
}

gboolean lid_sheet_balance_fit_find (const LidBalance *balance,
                                     const LidMeasure *measure,
                                     double width,
                                     double height,
                                     LidBalanceFit *fit);
const char *lid_sheet_balance_fit_label (const LidMachine *machine,
                                         const LidUnit *unit,
                                         const LidBalanceFit *fit);
guint lid_sheet_balance_fit_sides (const LidLeaf *leaf, const LidBalanceFit *fit);
guint lid_sheet_balance_fit_column (const LidLeaf *leaf, guint sides, guint column);
double lid_sheet_balance_fit_unit (const LidUnit *unit, const LidBalanceFit *fit);
double lid_sheet_balance_fit_slot (const LidBalanceFit *fit, double column, guint n);
double lid_sheet_balance_fit_leaf (const LidMachine *machine,
                                   const LidLeaf *leaf,
                                   const LidBalanceFit *fit);

/* sheet-balance-leaf.c */
void lid_sheet_balance_leaf_put (const LidBalanceSide *side,
                                 const LidBalanceFit *fit,
                                 LidPage *page,
                                 LidBox area);
