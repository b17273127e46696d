/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What moves make of channels: none is emptied, and of arrangements that do the same the one with
 * more channels alike is the better one. */
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

static const LidModule *
module_after (const LidCheck *check, const GArray *moves, guint slot)
{
  const LidModule *module = lid_check_module (check, slot);

  for (guint i = 0; i < moves->len; i++)
    if (g_array_index (moves, LidMove, i).to == (int)slot)
      return g_array_index (moves, LidMove, i).module;
    else if (g_array_index (moves, LidMove, i).from == (int)slot)
      module = NULL;
  return module;
}

/* Whether each module on @a has one like it on @b, whatever the slots. */
static gboolean
is_matched (const LidCheck *check, const GArray *moves, guint a, guint b)
{
  const LidBoardChannel *x = &check->board->channels[a], *y = &check->board->channels[b];
  LidSlotSet taken = { { 0 } };

  for (guint i = 0; i < x->n_slots; i++)
    {
      const LidModule *module = module_after (check, moves, x->slots[i]);
      gboolean met = module == NULL;

      for (guint k = 0; !met && k < y->n_slots; k++)
        {
          const LidModule *other = module_after (check, moves, y->slots[k]);

          met = other != NULL && !lid_slot_set_has (&taken, k) && lid_cure_same (module, other);
          if (met)
            lid_slot_set_add (&taken, k);
        }
      if (!met)
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_cure_count_alike:
 * @check: whose population
 * @moves: LidMove
 *
 * Returns: how many pairs of channels hold the same modules afterwards
 */
guint
lid_cure_count_alike (const LidCheck *check, const GArray *moves)
{
  guint n = 0;

  for (guint a = 0; a < check->board->n_channels; a++)
    for (guint b = 0; b < a; b++)
      n += is_matched (check, moves, a, b) && is_matched (check, moves, b, a);
  return n;
}
