/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"

#include "base/text.h"

#include <glib/gi18n-lib.h>

#define MOST_NAMES 6u
#define MOST_CHANNELS 8u

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
      names[n++] = lid_board_name_slot (check->board, (guint)slot);
    }
  return lid_text_join (names, lid_slot_set_count (slots), MOST_NAMES);
}

/* Those of one socket, or of none told, without the socket; NULL where there are none. */
static char *
name_channels_of (const LidBoard *board, const LidSlotSet *channels, int socket)
{
  const char *names[LID_BOARD_MAX_CHANNELS];
  guint n = 0;

  LID_SLOT_SET_EACH (channels, index)
    if (board->channels[index].socket == socket)
      names[n++] = board->channels[index].name;
  return n > 0 ? lid_text_join (names, n, MOST_CHANNELS) : NULL;
}

/* Takes @names: channels of all the @sockets, bits, which are called alike there. */
static char *
add_processors (const LidCheck *check, char *names, guint32 sockets)
{
  g_autofree char *channels = names, *processors = NULL;

  if (sockets == 0 || check->board->n_sockets == 1)
    return g_steal_pointer (&channels);
  processors = lid_names_sockets (check, sockets);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s of processor %s", "%s of processors %s",
                                       (gulong)__builtin_popcount (sockets)),
                          channels, processors);
}

/**
 * lid_names_channels:
 * @channels: some channels, by board channel index
 *
 * Returns: (transfer full): their names, with the processor where there are several: "channel A",
 *   "channels C and D of processor 1, G of processors 2 and 3"
 */
char *
lid_names_channels (const LidCheck *check, const LidSlotSet *channels)
{
  const LidBoard *board = check->board;
  guint n = lid_slot_set_count (channels);
  g_autoptr (GPtrArray) groups = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *names = NULL;
  guint32 told = 0;

  for (int socket = LID_NOWHERE; socket < (int)board->n_sockets; socket++)
    {
      char *group = socket != LID_NOWHERE && (told >> socket & 1)
                        ? NULL
                        : name_channels_of (board, channels, socket);
      guint32 alike = socket == LID_NOWHERE ? 0 : 1u << socket;

      for (int other = socket + 1; alike != 0 && other < (int)board->n_sockets; other++)
        {
          g_autofree char *there = name_channels_of (board, channels, other);

          if (g_strcmp0 (there, group) == 0)
            alike |= 1u << other;
        }
      told |= alike;
      if (group != NULL)
        g_ptr_array_add (groups, add_processors (check, group, alike));
    }
  g_ptr_array_add (groups, NULL);
  names = g_strjoinv (", ", (char **)groups->pdata);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "channel %s", "channels %s", n), names);
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
