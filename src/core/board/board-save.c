/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-save.c — the layout of a board as JSON, the way board-file-layout.c reads it. What the
 * board does not tell is left out, or null where a name has to stand. */
#include "board/board-file-private.h"

static void
set_text (JsonObject *object, const char *name, const char *text)
{
  if (text != NULL)
    json_object_set_string_member (object, name, text);
}

static JsonObject *
write_place (const LidBoardSlot *slot)
{
  JsonObject *object = json_object_new ();

  json_object_set_double_member (object, "x", slot->x);
  json_object_set_double_member (object, "y", slot->y);
  json_object_set_double_member (object, "width", slot->width);
  json_object_set_double_member (object, "height", slot->height);
  if (slot->turn != 0)
    json_object_set_double_member (object, "turn", slot->turn);
  return object;
}

static JsonObject *
write_slot (const LidBoard *board, guint index)
{
  const LidBoardSlot *slot = &board->slots[index];
  JsonObject *object = json_object_new ();

  json_object_set_string_member (object, "id", slot->id);
  if (g_strcmp0 (slot->id, slot->name) != 0)
    set_text (object, "name", slot->name);
  if (slot->channel != LID_NOWHERE)
    {
      if (slot->position > 0)
        json_object_set_int_member (object, "position", slot->position);
      else
        json_object_set_null_member (object, "position");
    }
  if (slot->latch != NULL)
    {
      JsonObject *latch = json_object_new ();

      json_object_set_string_member (latch, "word", slot->latch);
      set_text (latch, "hue", slot->latch_hue);
      json_object_set_object_member (object, "latch", latch);
    }
  if (slot->placed)
    json_object_set_object_member (object, "place_mm", write_place (slot));
  if (slot->max_height > 0)
    json_object_set_double_member (object, "clearance_mm", slot->max_height / 100.0);
  if (slot->soldered != NULL)
    json_object_set_object_member (object, "soldered",
                                   lid_board_file_soldered_write (slot->soldered));
  return object;
}

/* Opens a channel, named or "not told" (NULL), and returns its list of slots. */
static JsonArray *
add_channel (JsonArray *channels, const char *name)
{
  JsonObject *object = json_object_new ();
  JsonArray *slots = json_array_new ();

  if (name != NULL)
    json_object_set_string_member (object, "name", name);
  else
    json_object_set_null_member (object, "name");
  json_object_set_array_member (object, "slots", slots);
  json_array_add_object_element (channels, object);
  return slots;
}

static JsonArray *
add_controller (JsonArray *controllers, int number)
{
  JsonObject *object = json_object_new ();
  JsonArray *channels = json_array_new ();

  if (number > 0)
    json_object_set_int_member (object, "number", number);
  else
    json_object_set_null_member (object, "number");
  json_object_set_array_member (object, "channels", channels);
  json_array_add_object_element (controllers, object);
  return channels;
}

/* Whether an earlier channel of the same socket has the same controller. */
static gboolean
controller_seen (const LidBoard *board, guint index)
{
  for (guint i = 0; i < index; i++)
    if (board->channels[i].socket == board->channels[index].socket
        && board->channels[i].controller == board->channels[index].controller)
      return TRUE;
  return FALSE;
}

static void
write_controller (const LidBoard *board, guint first, JsonArray *channels)
{
  for (guint i = first; i < board->n_channels; i++)
    {
      const LidBoardChannel *channel = &board->channels[i];
      JsonArray *slots;

      if (channel->socket != board->channels[first].socket
          || channel->controller != board->channels[first].controller)
        continue;
      slots = add_channel (channels, channel->name);
      for (guint k = 0; k < channel->n_slots; k++)
        json_array_add_object_element (slots, write_slot (board, channel->slots[k]));
    }
}

/* One socket, LID_NOWHERE for what is on none that is told. */
static JsonArray *
write_socket (const LidBoard *board, int socket)
{
  JsonArray *controllers = json_array_new ();
  JsonArray *loose_channels = NULL, *loose = NULL;

  for (guint i = 0; i < board->n_channels; i++)
    if (board->channels[i].socket == socket && !controller_seen (board, i))
      {
        JsonArray *channels = add_controller (controllers, board->channels[i].controller);

        write_controller (board, i, channels);
        if (board->channels[i].controller == 0)
          loose_channels = channels;
      }
  for (guint i = 0; i < board->n_slots; i++)
    {
      if (board->slots[i].channel != LID_NOWHERE || board->slots[i].socket != socket)
        continue;
      if (loose_channels == NULL)
        loose_channels = add_controller (controllers, 0);
      if (loose == NULL)
        loose = add_channel (loose_channels, NULL);
      json_array_add_object_element (loose, write_slot (board, i));
    }
  return controllers;
}

static void
write_sockets (const LidBoard *board, JsonObject *root)
{
  JsonArray *sockets = json_array_new ();

  for (int i = LID_NOWHERE; i < (int)board->n_sockets; i++)
    {
      JsonArray *controllers = write_socket (board, i);
      JsonObject *socket;

      if (i == LID_NOWHERE && json_array_get_length (controllers) == 0)
        {
          json_array_unref (controllers);
          continue;
        }
      socket = json_object_new ();
      if (i == LID_NOWHERE)
        json_object_set_null_member (socket, "name");
      else
        json_object_set_string_member (socket, "name", board->sockets[i].name);
      json_object_set_array_member (socket, "controllers", controllers);
      json_array_add_object_element (sockets, socket);
    }
  json_object_set_array_member (root, "sockets", sockets);
}

/**
 * lid_board_save_layout:
 * @board: a board
 * @root: the definition's root object; gets head and layout
 */
void
lid_board_save_layout (const LidBoard *board, JsonObject *root)
{
  json_object_set_int_member (root, "format", LID_BOARD_FORMAT);
  json_object_set_string_member (root, "id", board->id);
  json_object_set_int_member (root, "version", MAX (board->version, 1));
  json_object_set_string_member (root, "name", board->name);
  set_text (root, "about", board->about);
  json_object_set_string_member (root, "source",
                                 board->source != NULL ? board->source : "not told");
  if (board->derived)
    json_object_set_boolean_member (root, "derived", TRUE);
  if (board->width_mm > 0)
    {
      JsonObject *size = json_object_new ();

      json_object_set_double_member (size, "width", board->width_mm);
      json_object_set_double_member (size, "height", board->height_mm);
      json_object_set_object_member (root, "size_mm", size);
    }
  write_sockets (board, root);
}
