/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet.h"

/* The machine on a sheet: leaves (a processor and its channels) of units (a channel and its slots).
 * What is not told is not drawn: slots without channel stand in plain lists. */
typedef struct
{
  const char *label; /* "channel A", NULL in a list */
  guint n_slots;
  guint slots[16]; /* a longer channel becomes several units */
  double carries;  /* of the channel's whole rate, 0 to 1; 0: idle, broken line */
} LidUnit;

typedef struct
{
  const char *title; /* "processor 1", nullable */
  const char *under; /* "not fitted", "channel not told", nullable */
  gboolean list;     /* units are single slots, no stem */
  guint first_unit;
  guint n_units;
  guint n_slots;
} LidLeaf;

/* What stands on one page: leaves, or parts of a leaf. */
typedef struct
{
  LidLeaf *leaves;
  guint n_leaves;
  guint n_slots;
} LidPart;

typedef struct
{
  LidSheet *sheet;
  const LidBoard *board;
  GArray *units;  /* LidUnit */
  GArray *leaves; /* LidLeaf */
  gboolean any_ring, any_mark, any_finding, any_latch, any_detail;
  gboolean plain; /* what sits in a slot is told by its weight alone; for the key */
} LidMachine;

LidMachine *lid_sheet_machine_new (LidSheet *sheet,
                                   const LidBoard *board,
                                   const LidPopulation *population,
                                   const LidAssessment *assessment);
void lid_sheet_machine_free (LidMachine *machine);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidMachine, lid_sheet_machine_free)
GArray *lid_sheet_machine_split (const LidMachine *machine, guint most_slots);
void lid_sheet_machine_parts_free (GArray *parts);

static inline const LidUnit *
lid_sheet_machine_unit (const LidMachine *machine, guint unit)
{
  return &g_array_index (machine->units, LidUnit, unit);
}
