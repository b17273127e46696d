/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof-map.c — the slots a machine reports, mapped to the board of the job.
 *
 * As the board spells them (slot-map.h) where it can; a machine whose firmware was changed, or
 * which is read in another way, spells them differently. Then the place counts that the strings
 * tell (shared/facts/locators.md), and only where it is one slot's alone. */
#include "prove/proof-private.h"

#include "base/text.h"
#include "board/slot-map.h"

/* Which of its channel by the numbers in the names, from 1: what strings call a position. A board
 * counts positions in the order of filling, which may begin at the second. */
static guint
number_of (const LidBoard *board, const LidBoardChannel *channel, guint slot)
{
  guint number = 1;

  for (guint i = 0; i < channel->n_slots; i++)
    number += lid_text_compare_naturally (board->slots[channel->slots[i]].id, board->slots[slot].id)
              < 0;
  return number;
}

static gboolean
is_place_of (const LidBoard *board, guint slot, const LidPlace *place)
{
  const LidBoardSlot *own = &board->slots[slot];
  const LidBoardChannel *channel
      = own->channel != LID_NOWHERE ? &board->channels[own->channel] : NULL;

  return channel != NULL && own->socket == place->socket - 1
         && (place->controller == 0 || channel->controller == 0
             || channel->controller == place->controller)
         && g_ascii_strcasecmp (channel->name, place->channel) == 0
         && number_of (board, channel, slot) == (guint)place->position;
}

/* A board of one processor is not asked which. */
static int
find_place (const LidBoard *board, const LidDevice *device)
{
  LidPlace place = device->place;
  int found = LID_NOWHERE;

  if (place.channel == NULL || place.position == 0)
    return LID_NOWHERE;
  if (place.socket == 0 && board->n_sockets == 1)
    place.socket = 1;
  for (guint slot = 0; slot < board->n_slots; slot++)
    if (is_place_of (board, slot, &place))
      {
        if (found != LID_NOWHERE)
          return LID_NOWHERE;
        found = (int)slot;
      }
  return found;
}

/**
 * lid_proof_map:
 * @board: the board of the job
 * @inventory: what was read, after lid_locators_place()
 * @by_place: (out): per device: 1 where only the place tells which slot it is
 *
 * Returns: (transfer full): per device the slot, LID_NOWHERE for none; g_free() it
 */
int *
lid_proof_map (const LidBoard *board, const LidInventory *inventory, guint8 *by_place)
{
  int *map = lid_slot_map_new (board, inventory, NULL);
  g_autofree guint8 *taken = g_new0 (guint8, board->n_slots + 1);

  for (guint i = 0; i < inventory->devices->len; i++)
    if (map[i] != LID_NOWHERE)
      taken[map[i]] = TRUE;
  for (guint i = 0; i < inventory->devices->len; i++)
    if (map[i] == LID_NOWHERE)
      {
        int slot = find_place (board, inventory->devices->pdata[i]);

        if (slot == LID_NOWHERE || taken[slot])
          continue;
        map[i] = slot;
        taken[slot] = by_place[i] = TRUE;
      }
  return map;
}
