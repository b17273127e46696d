/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is in the machine is moved to serve more channels and processors, not fewer. */
#include "checks/cure.h"

/* How many channels, or processors, hold what sits in @slots; what is not told is none. */
static guint
count_held (const LidBoard *board, const LidSlotSet *slots, gboolean channels)
{
  LidSlotSet held = { { 0 } };

  LID_SLOT_SET_EACH (slots, slot)
    {
      int of = channels ? board->slots[slot].channel : board->slots[slot].socket;

      if (of != LID_NOWHERE)
        lid_slot_set_add (&held, (guint)of);
    }
  return lid_slot_set_count (&held);
}

/**
 * lid_cure_empties:
 * @check: whose population
 * @moves: LidMove, all from slot to slot
 *
 * One module in every channel before a second one in any, and memory at every processor
 * (shared/facts/population.md P3, P5): none is emptied to be rid of a finding.
 *
 * Returns: whether fewer channels, or fewer processors, hold a module afterwards
 */
gboolean
lid_cure_empties (const LidCheck *check, const GArray *moves)
{
  LidSlotSet before = { { 0 } }, after;

  for (guint i = 0; i < check->board->n_slots; i++)
    if (lid_check_module (check, i) != NULL)
      lid_slot_set_add (&before, i);
  after = before;
  for (guint i = 0; i < moves->len; i++)
    lid_slot_set_drop (&after, (guint)g_array_index (moves, LidMove, i).from);
  for (guint i = 0; i < moves->len; i++)
    lid_slot_set_add (&after, (guint)g_array_index (moves, LidMove, i).to);
  return count_held (check->board, &after, TRUE) < count_held (check->board, &before, TRUE)
         || count_held (check->board, &after, FALSE) < count_held (check->board, &before, FALSE);
}
