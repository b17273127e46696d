/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"
#include "inventory/inventory.h"

/* Which processors are fitted and which module sits in which slot of a board, with everything else
 * the checker has to know: firmware, mode, setup. A plain value: copy it, change the copy, compare.
 * Slots and sockets are the board's indices. */

typedef struct
{
  LidModule *module; /* owned reference; NULL when empty */
  LidSlotState state;
  LidRate configured; /* the rate the inventory says it runs at; LID_RATE_UNKNOWN: not told */
} LidFitting;

typedef struct
{
  gboolean fitted;
  int model; /* index into the board's processors, LID_NOWHERE: not told */
} LidFittedProcessor;

typedef struct _LidPopulation LidPopulation;
struct _LidPopulation
{
  guint n_slots;
  LidFitting *slots;
  guint n_sockets;
  LidFittedProcessor *processors;
  char *firmware; /* level, NULL: not told */
  LidMode mode;
  guint spare_ranks;   /* spared */
  gint64 mirrored_mib; /* partly mirrored */
  guint numa_split;    /* nodes a socket is cut into; 0 or 1: not cut */
  LidRate setup_limit; /* the rate setup is set to, LID_RATE_UNKNOWN: automatic */
  guint setup_mv;      /* the voltage setup is set to, 0: automatic */
};

LidPopulation *lid_population_new (const LidBoard *board);
LidPopulation *lid_population_copy (const LidPopulation *population);
void lid_population_free (LidPopulation *population);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidPopulation, lid_population_free)

void lid_population_put (LidPopulation *population, guint slot, LidModule *module);
void lid_population_take (LidPopulation *population, guint slot);
gboolean lid_population_equal (const LidPopulation *a, const LidPopulation *b);
gboolean lid_population_shows (const LidPopulation *population, guint slot);
gboolean lid_population_is_evidence (const LidPopulation *population,
                                     const LidPopulation *as_found);
guint lid_population_n_modules (const LidPopulation *population);
const char *lid_mode_to_text (LidMode mode);
LidMode lid_mode_from_text (const char *text, gboolean *found);
