/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"

#include "base/text.h"

#include <glib/gi18n-lib.h>

#define MOST_NAMES 6u

/* The name people find on the board; the id where two slots are printed alike. */
static const char *
name_slot (const LidBoard *board, guint slot)
{
  const char *name = board->slots[slot].name;

  if (name == NULL || *name == 0)
    return board->slots[slot].id;
  for (guint i = 0; i < board->n_slots; i++)
    if (i != slot && g_strcmp0 (board->slots[i].name, name) == 0)
      return board->slots[slot].id;
  return name;
}

/**
 * lid_names_slots:
 * @slots: some slots
 *
 * Returns: (transfer full): their names, the first few written out: "A1, A2 and 6 more"
 */
char *
lid_names_slots (const LidCheck *check, const LidSlotSet *slots)
{
  const char *names[MOST_NAMES];
  guint n = 0;

  LID_SLOT_SET_EACH (slots, slot)
    {
      if (n == MOST_NAMES)
        break;
      names[n++] = name_slot (check->board, (guint)slot);
    }
  return lid_text_join (names, lid_slot_set_count (slots), MOST_NAMES);
}

/**
 * lid_names_channels:
 * @channels: some channels, by board channel index
 *
 * Returns: (transfer full): their names, with the processor where there are several
 */
char *
lid_names_channels (const LidCheck *check, const LidSlotSet *channels)
{
  const LidBoard *board = check->board;
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  LID_SLOT_SET_EACH (channels, index)
    {
      const LidBoardChannel *channel = &board->channels[index];

      if (names->len == MOST_NAMES)
        break;
      if (board->n_sockets > 1 && channel->socket != LID_NOWHERE)
        g_ptr_array_add (names, g_strdup_printf (_ ("%s of processor %s"), channel->name,
                                                 board->sockets[channel->socket].name));
      else
        g_ptr_array_add (names, g_strdup (channel->name));
    }
  return lid_text_join ((const char *const *)names->pdata, lid_slot_set_count (channels),
                        MOST_NAMES);
}

/**
 * lid_names_sockets:
 * @sockets: bits, 1 << socket index
 *
 * Returns: (transfer full): their names: "1, 2 and 4"
 */
char *
lid_names_sockets (const LidCheck *check, guint32 sockets)
{
  const char *names[LID_BOARD_MAX_SOCKETS];
  guint n = 0;

  for (guint i = 0; i < check->board->n_sockets; i++)
    if (sockets & (1u << i))
      names[n++] = check->board->sockets[i].name;
  return lid_text_join (names, n, LID_BOARD_MAX_SOCKETS);
}
