/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What may be added to what is in a machine, for whoever opens its lid next. */
#include "population/additions.h"

/* Hundredths of a mm: the lowest of JEDEC's standard heights of modules (MO-269, DDR3). */
#define LOWEST_STANDARD 3000

/**
 * lid_additions_kinds:
 * @population: of @board
 *
 * The board may take more kinds, but no two beside each other unless it says so
 * (shared/facts/population.md 1.1). What is persistent does not count.
 *
 * Returns: bits, 1 << LidKind, of those that go with what is in it; 0: not told
 */
guint32
lid_additions_kinds (const LidBoard *board, const LidPopulation *population)
{
  const LidMixRule *mix = &board->mixes[LID_MIX_KINDS];
  guint32 fitted = 0;

  for (guint i = 0; i < population->n_slots; i++)
    {
      const LidModule *module = population->slots[i].module;

      if (module != NULL && !module->persistent && lid_module_kind (module) != LID_KIND_UNKNOWN)
        fitted |= 1u << lid_module_kind (module);
    }
  fitted &= board->kinds;
  if (fitted == 0 || (fitted & (fitted - 1)) != 0 || (mix->told && mix->allowed))
    return board->kinds;
  return fitted;
}

/**
 * lid_additions_least_room:
 *
 * Returns: the least height above a slot, in hundredths of a mm, where a module of a standard
 *   height may be too tall for it; else 0
 */
gint32
lid_additions_least_room (const LidBoard *board)
{
  gint32 room = LOWEST_STANDARD;

  for (guint i = 0; i < board->n_slots; i++)
    if (board->slots[i].soldered == NULL && lid_board_clearance (board, i) > 0)
      room = MIN (room, lid_board_clearance (board, i));
  return room < LOWEST_STANDARD ? room : 0;
}
