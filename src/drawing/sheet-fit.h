/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet-machine.h"

/* How a part of the machine is set into an area: chosen among candidates by numbers alone. */
#define LID_FIT_SLOT_GAP 0.7   /* between slots of a channel */
#define LID_FIT_UNIT_GAP 2.3   /* between channels */
#define LID_FIT_LEAF_GAP 6.0   /* between leaves one below the other */
#define LID_FIT_ACROSS_GAP 9.0 /* between leaves side by side */
#define LID_FIT_COLUMN_GAP 5.0 /* between columns of a list */
#define LID_FIT_HEAD 8.5       /* processor over a two-sided leaf */
#define LID_FIT_LIST_HEAD 6.5  /* heading of a list */
#define LID_FIT_BOX 27.0       /* processor beside a one-sided leaf */
#define LID_FIT_BAR 3.0        /* room for the bar that stands for a vein */
#define LID_FIT_BAR_GAP 1.4    /* between channels, with bars */
#define LID_FIT_BAR_LABEL 3.7  /* channel name over its slots, with bars */
#define LID_FIT_MOST_SIDES 5u
#define LID_FIT_SCALES 5u /* sizes of type that are tried */

/* Widths at the base sizes, measured once; without hinting they grow with the type. */
typedef struct
{
  double name, words[LID_N_WORDS], detail, label;
} LidFitWidest;

typedef struct
{
  guint across;    /* leaves side by side */
  guint sides;     /* columns of slots in a leaf */
  gboolean bars;   /* no stem: a bar beside each channel's slots, its name over them */
  gboolean placed; /* lid off: slots as they lie, upright in a row; see sheet-placed.c */
  double leaf;     /* width of a leaf */
  double column;   /* width of a slot */
  double middle;   /* room for veins and labels: between the columns, or left of the only one */
  double label;    /* width kept for a channel's label */
  double cell;     /* height of a slot */
  double height;   /* of the whole */
  double quality;
  LidSlotShape shape;
} LidFit;

gboolean lid_sheet_fit_find (const LidMachine *machine,
                             const LidPart *part,
                             const LidMeasure *measure,
                             double width,
                             double height,
                             LidFit *fit);
void lid_sheet_fit_columns (const LidMachine *machine,
                            const LidLeaf *leaf,
                            guint sides,
                            guint first[LID_FIT_MOST_SIDES + 1]);
double
lid_sheet_fit_leaf_height (const LidMachine *machine, const LidLeaf *leaf, const LidFit *fit);
void lid_sheet_fit_shape (const LidMachine *machine,
                          const LidFitWidest *widest,
                          guint scale,
                          LidSlotShape *shape);
double lid_sheet_fit_needed (const LidMachine *machine,
                             const LidFitWidest *widest,
                             const LidFit *fit,
                             guint scale);
double lid_sheet_fit_least_cell (const LidFit *fit, guint size);
double lid_sheet_fit_judge (
    const LidMachine *machine, const LidPart *part, const LidFit *fit, guint scale, double room);
