/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-file-layout.c — sockets > controllers > channels > slots, nested in the file, flat arrays
 * in the board. Counted first, then filled. A null name or number stands for "not told", so that a
 * board derived from an inventory can be written in the same form. */
#include "base/error.h"
#include "board/board-file-private.h"

#include <math.h>

typedef struct
{
  guint sockets, channels, slots;
} Counts;

typedef struct
{
  LidBoard *board;
  GHashTable *ids; /* slot ids seen; borrowed from the board */
  guint unplaced;
} Filling;

static gboolean
count_channels (const LidJsonAt *controller, Counts *counts, GError **error)
{
  LidJsonAt channels = lid_json_member (controller, "channels");
  guint n_channels, n_slots;

  if (!lid_json_get_length (&channels, LID_BOARD_MAX_CHANNELS, &n_channels, error))
    return FALSE;
  for (guint k = 0; k < n_channels; k++)
    {
      LidJsonAt channel = lid_json_element (&channels, k);
      LidJsonAt list = lid_json_member (&channel, "slots");

      if (!lid_json_get_length (&list, LID_BOARD_MAX_SLOTS, &n_slots, error))
        return FALSE;
      if (n_slots == 0)
        return lid_json_fail (&list, error, "a channel without slots");
      counts->slots += n_slots;
    }
  counts->channels += n_channels;
  return TRUE;
}

/* How much there is, bounded, before anything is allocated. */
static gboolean
count_all (Counts *counts, const LidJsonAt *sockets, GError **error)
{
  guint n_controllers;

  if (!lid_json_get_length (sockets, LID_BOARD_MAX_SOCKETS + 1, &counts->sockets, error))
    return FALSE;
  for (guint i = 0; i < counts->sockets; i++)
    {
      LidJsonAt socket = lid_json_element (sockets, i);
      LidJsonAt controllers = lid_json_member (&socket, "controllers");

      if (!lid_json_get_length (&controllers, LID_BOARD_MAX_CHANNELS, &n_controllers, error))
        return FALSE;
      for (guint k = 0; k < n_controllers; k++)
        {
          LidJsonAt controller = lid_json_element (&controllers, k);

          if (!count_channels (&controller, counts, error))
            return FALSE;
        }
    }
  if (counts->slots == 0)
    return lid_json_fail (sockets, error, "a board needs at least one slot");
  if (counts->slots > LID_BOARD_MAX_SLOTS)
    return lid_json_fail (sockets, error, "has %u slots; at most %u are taken", counts->slots,
                          LID_BOARD_MAX_SLOTS);
  if (counts->channels > LID_BOARD_MAX_CHANNELS)
    return lid_json_fail (sockets, error, "has %u channels; at most %u are taken", counts->channels,
                          LID_BOARD_MAX_CHANNELS);
  return TRUE;
}

/* "name": a text, or null for "not told". */
static gboolean
read_name (const LidJsonAt *up, char **name, GError **error)
{
  LidJsonAt at = lid_json_member (up, "name");

  if (lid_json_there (&at) && lid_json_is_null (&at))
    return TRUE;
  return lid_board_json_text (up, "name", TRUE, name, error);
}

/* A number from 1, null for "not told" (0), @otherwise when it is not there. */
static gboolean
read_number (
    const LidJsonAt *up, const char *name, guint most, guint otherwise, guint *out, GError **error)
{
  LidJsonAt at = lid_json_member (up, name);

  *out = otherwise;
  if (lid_json_there (&at) && lid_json_is_null (&at))
    {
      *out = 0;
      return TRUE;
    }
  return lid_board_json_uint (up, name, FALSE, most, out, error);
}

static gboolean
is_hue (const char *text)
{
  gsize n = 0;

  if (text[0] != '#')
    return FALSE;
  for (n = 1; text[n] != 0; n++)
    if (!g_ascii_isxdigit (text[n]))
      return FALSE;
  return n == 7;
}

static gboolean
read_latch (LidBoardSlot *slot, const LidJsonAt *up, GError **error)
{
  static const char *const names[] = { "word", "hue", NULL };
  LidJsonAt at = lid_json_member (up, "latch");
  LidJsonAt hue = lid_json_member (&at, "hue");

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_only (&at, names, error)
      || !lid_board_json_text (&at, "word", TRUE, &slot->latch, error)
      || !lid_board_json_text (&at, "hue", FALSE, &slot->latch_hue, error))
    return FALSE;
  if (slot->latch_hue != NULL && !is_hue (slot->latch_hue))
    return lid_json_fail (&hue, error, "must be written as #rrggbb");
  return TRUE;
}

/* Whether the outline, turned about its middle, lies on the drawing area. */
static gboolean
is_inside (const LidBoard *board, const LidBoardSlot *slot)
{
  double turn = slot->turn * G_PI / 180;
  double half_width = (fabs (slot->width * cos (turn)) + fabs (slot->height * sin (turn))) / 2;
  double half_height = (fabs (slot->width * sin (turn)) + fabs (slot->height * cos (turn))) / 2;
  double x = slot->x + slot->width / 2, y = slot->y + slot->height / 2, slack = 0.01;

  return x - half_width >= -slack && x + half_width <= board->width_mm + slack
         && y - half_height >= -slack && y + half_height <= board->height_mm + slack;
}

static gboolean
read_place (Filling *filling, LidBoardSlot *slot, const LidJsonAt *up, GError **error)
{
  static const char *const names[] = { "x", "y", "width", "height", "turn", NULL };
  LidJsonAt at = lid_json_member (up, "place_mm");
  LidJsonAt x = lid_json_member (&at, "x"), y = lid_json_member (&at, "y");
  LidJsonAt width = lid_json_member (&at, "width"), height = lid_json_member (&at, "height");
  LidJsonAt turn = lid_json_member (&at, "turn");

  if (!lid_json_there (&at))
    {
      filling->unplaced++;
      return TRUE;
    }
  if (filling->board->width_mm <= 0)
    return lid_json_fail (&at, error, "a place needs the board's size_mm");
  if (!lid_json_only (&at, names, error) || !lid_json_get_double (&x, 0, 2000, &slot->x, error)
      || !lid_json_get_double (&y, 0, 2000, &slot->y, error)
      || !lid_json_get_double (&width, 1, 500, &slot->width, error)
      || !lid_json_get_double (&height, 1, 500, &slot->height, error)
      || (lid_json_there (&turn) && !lid_json_get_double (&turn, -360, 360, &slot->turn, error)))
    return FALSE;
  if (!is_inside (filling->board, slot))
    return lid_json_fail (&at, error, "lies outside the board's size_mm");
  slot->placed = TRUE;
  return TRUE;
}

static gboolean
read_slot (Filling *filling, const LidJsonAt *at, guint most, guint nth, GError **error)
{
  static const char *const names[]
      = { "id", "name", "position", "latch", "place_mm", "clearance_mm", "soldered", NULL };
  LidBoard *board = filling->board;
  const LidBoardChannel *channel = &board->channels[board->n_channels - 1];
  LidBoardSlot *slot = &board->slots[board->n_slots];
  LidJsonAt id = lid_json_member (at, "id"), soldered = lid_json_member (at, "soldered");

  slot->socket = channel->socket;
  slot->channel = channel->name != NULL ? (int)board->n_channels - 1 : LID_NOWHERE;
  board->n_slots++;
  if (!lid_json_only (at, names, error) || !lid_board_json_text (at, "id", TRUE, &slot->id, error)
      || !lid_board_json_text (at, "name", FALSE, &slot->name, error)
      || !read_number (at, "position", most, channel->name != NULL ? nth + 1 : 0, &slot->position,
                       error)
      || !read_latch (slot, at, error) || !read_place (filling, slot, at, error)
      || !lid_board_json_mm (at, "clearance_mm", &slot->max_height, error))
    return FALSE;
  if (slot->name == NULL)
    slot->name = g_strdup (slot->id);
  if (!g_hash_table_add (filling->ids, slot->id))
    return lid_json_fail (&id, error, "another slot already has the id “%.60s”", slot->id);
  if (channel->name == NULL && slot->position != 0)
    return lid_json_fail (at, error, "a position needs a channel with a name");
  if (!lid_json_there (&soldered))
    return TRUE;
  slot->soldered = lid_board_file_soldered_read (&soldered, error);
  return slot->soldered != NULL;
}

/* Puts the channel's slots in the order of position, which must be 1..n or not told at all. */
static gboolean
order_channel (
    LidBoard *board, LidBoardChannel *channel, guint first, const LidJsonAt *at, GError **error)
{
  guint n_told = 0;

  channel->slots = g_new (guint, channel->n_slots);
  for (guint i = 0; i < channel->n_slots; i++)
    channel->slots[i] = G_MAXUINT;
  for (guint i = 0; i < channel->n_slots; i++)
    n_told += board->slots[first + i].position != 0;
  if (n_told != 0 && n_told != channel->n_slots)
    return lid_json_fail (at, error, "either every slot of a channel has a position, or none");
  for (guint i = 0; i < channel->n_slots; i++)
    {
      guint place = n_told != 0 ? board->slots[first + i].position - 1 : i;

      if (channel->slots[place] != G_MAXUINT)
        return lid_json_fail (at, error, "the positions in a channel must run from 1 to %u",
                              channel->n_slots);
      channel->slots[place] = first + i;
    }
  return TRUE;
}

static gboolean
read_channel (Filling *filling, const LidJsonAt *at, int socket, guint controller, GError **error)
{
  static const char *const names[] = { "name", "slots", NULL };
  LidBoard *board = filling->board;
  LidBoardChannel *channel = &board->channels[board->n_channels++];
  LidJsonAt slots = lid_json_member (at, "slots"), name = lid_json_member (at, "name");
  guint first = board->n_slots;

  channel->socket = socket;
  channel->controller = (int)controller;
  if (!lid_json_only (at, names, error) || !read_name (at, &channel->name, error)
      || !lid_json_get_length (&slots, LID_BOARD_MAX_SLOTS, &channel->n_slots, error))
    return FALSE;
  for (guint i = 0; i + 1 < board->n_channels; i++)
    if (board->channels[i].socket == socket && board->channels[i].controller == (int)controller
        && g_strcmp0 (board->channels[i].name, channel->name) == 0)
      return lid_json_fail (&name, error, "this controller already has a channel of that name");
  for (guint i = 0; i < channel->n_slots; i++)
    {
      LidJsonAt slot = lid_json_element (&slots, i);

      if (!read_slot (filling, &slot, channel->n_slots, i, error))
        return FALSE;
    }
  if (channel->name != NULL)
    return order_channel (board, channel, first, &slots, error);
  board->n_channels--; /* its slots stay; "not told" is no channel */
  channel->n_slots = 0;
  return TRUE;
}

static gboolean
read_controller (Filling *filling, const LidJsonAt *at, int socket, guint nth, GError **error)
{
  static const char *const names[] = { "number", "channels", NULL };
  LidJsonAt channels = lid_json_member (at, "channels"), where = lid_json_member (at, "number");
  guint n_channels, number;

  if (!lid_json_only (at, names, error)
      || !read_number (at, "number", LID_BOARD_MAX_CHANNELS, nth + 1, &number, error)
      || !lid_json_get_length (&channels, LID_BOARD_MAX_CHANNELS, &n_channels, error))
    return FALSE;
  for (guint i = 0; i < filling->board->n_channels; i++)
    if (filling->board->channels[i].socket == socket
        && filling->board->channels[i].controller == (int)number)
      return lid_json_fail (&where, error, "the socket already has a controller %u", number);
  for (guint i = 0; i < n_channels; i++)
    {
      LidJsonAt channel = lid_json_element (&channels, i);

      if (!read_channel (filling, &channel, socket, number, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_socket (Filling *filling, const LidJsonAt *at, gboolean *nameless, GError **error)
{
  static const char *const names[] = { "name", "controllers", NULL };
  LidBoard *board = filling->board;
  LidBoardSocket *socket = &board->sockets[board->n_sockets];
  LidJsonAt controllers = lid_json_member (at, "controllers");
  LidJsonAt name = lid_json_member (at, "name");
  guint n_controllers;
  int index = LID_NOWHERE;

  if (!lid_json_only (at, names, error)
      || !lid_json_get_length (&controllers, LID_BOARD_MAX_CHANNELS, &n_controllers, error)
      || !read_name (at, &socket->name, error))
    return FALSE;
  if (socket->name == NULL && *nameless)
    return lid_json_fail (&name, error, "only one socket may be without a name");
  for (guint i = 0; i < board->n_sockets; i++)
    if (g_strcmp0 (board->sockets[i].name, socket->name) == 0)
      {
        g_clear_pointer (&socket->name, g_free);
        return lid_json_fail (&name, error, "another socket already has that name");
      }
  if (socket->name != NULL)
    index = (int)board->n_sockets++;
  *nameless = *nameless || index == LID_NOWHERE;
  if (board->n_sockets > LID_BOARD_MAX_SOCKETS)
    return lid_json_fail (at, error, "at most %u sockets are taken", LID_BOARD_MAX_SOCKETS);
  socket->first_channel = board->n_channels;
  for (guint i = 0; i < n_controllers; i++)
    {
      LidJsonAt controller = lid_json_element (&controllers, i);

      if (!read_controller (filling, &controller, index, i, error))
        return FALSE;
    }
  socket->n_channels = index == LID_NOWHERE ? 0 : board->n_channels - socket->first_channel;
  for (guint i = socket->first_channel; i < board->n_channels; i++)
    if (board->channels[i].controller != 0
        && (i == socket->first_channel
            || board->channels[i].controller != board->channels[i - 1].controller))
      socket->n_controllers += index != LID_NOWHERE;
  return TRUE;
}

static gboolean
read_size (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = { "width", "height", NULL };
  LidJsonAt at = lid_json_member (root, "size_mm");
  LidJsonAt width = lid_json_member (&at, "width"), height = lid_json_member (&at, "height");

  if (!lid_json_there (&at))
    return TRUE;
  return lid_json_only (&at, names, error)
         && lid_json_get_double (&width, 20, 2000, &board->width_mm, error)
         && lid_json_get_double (&height, 20, 2000, &board->height_mm, error);
}

/**
 * lid_board_file_layout_read:
 * @board: a board under construction
 * @root: the file's root object
 *
 * Returns: whether sockets, channels and slots could be read
 */
gboolean
lid_board_file_layout_read (LidBoard *board, const LidJsonAt *root, GError **error)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  Filling filling = { .board = board, .ids = ids };
  LidJsonAt sockets = lid_json_member (root, "sockets");
  Counts counts = { 0 };
  gboolean nameless = FALSE;

  if (!read_size (board, root, error) || !count_all (&counts, &sockets, error))
    return FALSE;
  board->sockets = g_new0 (LidBoardSocket, counts.sockets);
  board->channels = g_new0 (LidBoardChannel, counts.channels);
  board->slots = g_new0 (LidBoardSlot, counts.slots);
  for (guint i = 0; i < counts.sockets; i++)
    {
      LidJsonAt socket = lid_json_element (&sockets, i);

      if (!read_socket (&filling, &socket, &nameless, error))
        return FALSE;
    }
  board->placed = filling.unplaced == 0;
  board->channels_told = board->sockets_told = TRUE;
  for (guint i = 0; i < board->n_slots; i++)
    {
      board->channels_told = board->channels_told && board->slots[i].channel != LID_NOWHERE;
      board->sockets_told = board->sockets_told && board->slots[i].socket != LID_NOWHERE;
    }
  return TRUE;
}
