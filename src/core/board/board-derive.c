/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-derive.c — a board from nothing but what an inventory tells.
 * It knows of what generation and form the modules are that sit in it, where they are all of one.
 * It is silent on everything an inventory cannot know: kinds taken, rates, limits, ways, places,
 * and the order of fitting unless that was taught. What the slot names did not tell stays untold: a
 * slot without a socket or channel has LID_NOWHERE there (product.md 3, "Channel not told is a
 * normal state").
 *
 * Sockets, channels and slots stand in the order in which board-file-layout.c reads them back, so
 * that a board embedded in a job keeps its indices. Slots without a channel stand in the order of
 * the numbers in their names, never of the table: in 6 machines of 10 the two differ
 * (shared/facts/locators.md 4). */
#include "board/board-derive.h"

#include "base/text.h"
#include "board/fingerprint.h"
#include "board/slot-names.h"

#include <stdlib.h>
#include <string.h>

#define ID_DIGITS 10

typedef struct
{
  const LidDevice *device;
  int socket;          /* index or LID_NOWHERE */
  int controller;      /* from 1; 0: not told */
  const char *channel; /* NULL: not told */
  int position;
} Entry;

/* What the firmware names alike stands in its own order: as slot-names.c counts. */
static int
compare_handles (const LidDevice *a, const LidDevice *b)
{
  if (a->array != b->array)
    return a->array < b->array ? -1 : 1;
  return (a->handle > b->handle) - (a->handle < b->handle);
}

static int
compare_entries (const void *left, const void *right)
{
  const Entry *a = left, *b = right;
  int order;

  if (a->socket != b->socket)
    return a->socket < b->socket ? -1 : 1;
  if (a->controller != b->controller)
    return a->controller < b->controller ? -1 : 1;
  if ((a->channel == NULL) != (b->channel == NULL))
    return a->channel == NULL ? 1 : -1;
  if (a->channel != NULL && (order = lid_text_compare_naturally (a->channel, b->channel)) != 0)
    return order;
  if (a->position != b->position)
    return a->position < b->position ? -1 : 1;
  if (strcmp (a->device->locator, b->device->locator) == 0
      && strcmp (a->device->bank, b->device->bank) == 0
      && (order = compare_handles (a->device, b->device)) != 0)
    return order;
  order = lid_text_compare_naturally (a->device->slot, b->device->slot);
  return order != 0 ? order : strcmp (a->device->slot, b->device->slot);
}

static gboolean
same_channel (const Entry *a, const Entry *b)
{
  return a->socket == b->socket && a->controller == b->controller && a->channel != NULL
         && b->channel != NULL && strcmp (a->channel, b->channel) == 0;
}

/* One processor listed, and no name speaks of a second: a slot can be nowhere else. */
static gboolean
has_one_socket (const LidInventory *inventory)
{
  for (guint i = 0; i < inventory->devices->len; i++)
    if (((LidDevice *)inventory->devices->pdata[i])->place.socket > 1)
      return FALSE;
  return inventory->processors->len == 1;
}

static guint
list_entries (const LidInventory *inventory, Entry *entries)
{
  guint n = MIN (inventory->devices->len, LID_BOARD_MAX_SLOTS);
  int otherwise = has_one_socket (inventory) ? 0 : LID_NOWHERE;

  for (guint i = 0; i < n; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];
      const LidPlace *place = &device->place;
      gboolean known = place->socket > 0 && place->socket <= (int)LID_BOARD_MAX_SOCKETS;

      entries[i] = (Entry){ .device = device,
                            .socket = known ? place->socket - 1 : otherwise,
                            .controller = place->channel != NULL ? place->controller : 0,
                            .channel = place->channel,
                            .position = place->position };
    }
  qsort (entries, n, sizeof *entries, compare_entries);
  return n;
}

/* A socket for every processor listed, fitted or not, and for every one that a slot names. */
static void
make_sockets (LidBoard *board, const LidInventory *inventory, const Entry *entries, guint n)
{
  guint sockets = MAX (inventory->processors->len, 1);

  if (sockets > LID_BOARD_MAX_SOCKETS)
    sockets = 1;
  for (guint i = 0; i < n; i++)
    sockets = MAX (sockets, (guint)(entries[i].socket + 1));
  board->n_sockets = sockets;
  board->sockets = g_new0 (LidBoardSocket, sockets);
  for (guint s = 0; s < sockets; s++)
    board->sockets[s].name = g_strdup_printf ("%u", s + 1);
}

/* A part of the board belongs to no job: the serial stays behind. */
static LidModule *
soldered_module (const LidDevice *device)
{
  LidModule *module;

  if (device->state != LID_SLOT_SOLDERED || device->module == NULL)
    return NULL;
  module = lid_module_copy (device->module);
  lid_module_set_text (&module->serial, NULL);
  lid_module_set_text (&module->id, NULL);
  return module;
}

static void
make_slot (LidBoardSlot *slot, const Entry *entry, int channel)
{
  const LidDevice *device = entry->device;

  slot->id = g_strdup (device->slot);
  slot->name = g_strdup (*device->locator != 0 ? device->locator : device->slot);
  slot->socket = entry->socket;
  slot->channel = channel;
  slot->position = channel != LID_NOWHERE ? (guint)entry->position : 0;
  slot->soldered = soldered_module (device);
}

/* Places in a channel run from 1 without a gap, or are not told: a gap comes of slots that lost
 * their names. */
static void
settle_positions (LidBoard *board, const LidBoardChannel *channel)
{
  for (guint i = 0; i < channel->n_slots; i++)
    if (board->slots[channel->slots[i]].position != i + 1)
      {
        for (guint k = 0; k < channel->n_slots; k++)
          board->slots[channel->slots[k]].position = 0;
        return;
      }
}

static guint
make_channel (LidBoard *board, const Entry *entries, guint first, guint n)
{
  LidBoardChannel *channel = &board->channels[board->n_channels];
  guint end = first + 1;

  while (end < n && same_channel (&entries[first], &entries[end]))
    end++;
  channel->name = g_strdup (entries[first].channel);
  channel->socket = entries[first].socket;
  channel->controller = entries[first].controller;
  channel->n_slots = end - first;
  channel->slots = g_new (guint, channel->n_slots);
  for (guint i = first; i < end; i++)
    {
      channel->slots[i - first] = i;
      make_slot (&board->slots[i], &entries[i], (int)board->n_channels);
    }
  settle_positions (board, channel);
  board->n_channels++;
  return end;
}

static void
make_layout (LidBoard *board, const Entry *entries, guint n)
{
  board->n_slots = n;
  board->slots = g_new0 (LidBoardSlot, n);
  board->channels = g_new0 (LidBoardChannel, MIN (n, LID_BOARD_MAX_CHANNELS));
  board->channels_told = board->sockets_told = n > 0;
  for (guint i = 0; i < n;)
    {
      board->sockets_told = board->sockets_told && entries[i].socket != LID_NOWHERE;
      if (entries[i].channel != NULL && board->n_channels < LID_BOARD_MAX_CHANNELS)
        {
          i = make_channel (board, entries, i, n);
          continue;
        }
      board->channels_told = FALSE;
      make_slot (&board->slots[i], &entries[i], LID_NOWHERE);
      i++;
    }
}

static void
join_channels_to_sockets (LidBoard *board)
{
  for (guint c = 0; c < board->n_channels; c++)
    {
      const LidBoardChannel *channel = &board->channels[c];
      LidBoardSocket *socket;

      if (channel->socket == LID_NOWHERE)
        continue;
      socket = &board->sockets[channel->socket];
      if (socket->n_channels++ == 0)
        socket->first_channel = c;
      if (channel->controller != 0
          && (socket->first_channel == c
              || board->channels[c - 1].controller != channel->controller))
        socket->n_controllers++;
    }
}

static void
take_order (LidBoard *board, const GPtrArray *order)
{
  if (order == NULL || order->len == 0)
    return;
  board->order_source = g_strdup ("order as taught");
  board->order = g_new (guint, order->len);
  for (guint i = 0; i < order->len; i++)
    {
      int slot = lid_board_find_slot (board, order->pdata[i]);

      if (slot != LID_NOWHERE)
        board->order[board->n_order++] = (guint)slot;
    }
}

/* What sits in a slot fits its key, so a machine whose modules are all of one generation takes that
 * and no other (the notch stands elsewhere: JEDEC MO outlines, from memory). Where they differ, or
 * some do not tell, nothing is known of it. */
static void
take_generation (LidBoard *board, const LidInventory *inventory)
{
  guint32 seen = 0;

  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];

      if (device->module != NULL && device->state == LID_SLOT_FILLED)
        seen |= 1u << lid_module_generation (device->module);
    }
  if (seen > 1 && (seen & (seen - 1)) == 0)
    board->generations = seen;
}

/* The same of the form: a DIMM and an SO-DIMM do not go into the slot of the other. The table tells
 * of an empty slot too what goes in (SMBIOS type 17, Form Factor: "of this memory device"), and a
 * real one calls what sits in it a DIMM and the empty slot beside it an SO-DIMM (m0002 of
 * shared/data/machines): then nothing is known of it. */
static void
take_form (LidBoard *board, const LidInventory *inventory)
{
  guint32 seen = 0;

  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];

      if (device->state == LID_SLOT_FILLED
          || (device->state != LID_SLOT_SOLDERED && device->form != LID_FORM_UNKNOWN))
        seen |= 1u << device->form;
    }
  if (seen == 1u << LID_FORM_DIMM)
    board->form = LID_FORM_DIMM;
  else if (seen == 1u << LID_FORM_SO_DIMM)
    board->form = LID_FORM_SO_DIMM;
}

/* How this firmware spells each slot, so that the board is known again and an inventory read after
 * the work finds its slots. A text report holds the strings of the tables. */
static void
take_spellings (LidBoard *board, const LidInventory *inventory, const Entry *entries, guint n)
{
  const char *format = g_strcmp0 (inventory->format, "report") == 0 ? "smbios" : inventory->format;

  board->spellings = g_new0 (LidSpelling, n);
  for (guint i = 0; i < n; i++)
    {
      const LidDevice *device = entries[i].device;
      LidSpelling *spelling = &board->spellings[board->n_spellings];

      if (*device->locator == 0 && *device->bank == 0)
        continue;
      spelling->format = g_strdup (format);
      spelling->slot = i;
      spelling->locator = *device->locator != 0 ? g_strdup (device->locator) : NULL;
      spelling->bank = *device->bank != 0 ? g_strdup (device->bank) : NULL;
      board->n_spellings++;
    }
}

static gboolean
is_taught (const LidInventory *inventory)
{
  for (guint i = 0; i < inventory->devices->len; i++)
    if (((LidDevice *)inventory->devices->pdata[i])->place.told_by == LID_TOLD_TAUGHT)
      return TRUE;
  return FALSE;
}

/* The id is the hash of the names, so that the same list gives the same board; the fingerprint lets
 * the next machine of this kind find it, once the board is kept. */
static void
take_names (LidBoard *board, const LidInventory *inventory)
{
  LidFingerprint *print = lid_fingerprint_of (inventory);

  board->id = g_strdup_printf ("derived-%.*s", ID_DIGITS, print->names);
  if (print->product != NULL || print->board != NULL)
    board->name = g_strdup (print->product != NULL ? print->product : print->board);
  else
    board->name = g_strdup_printf (
        board->n_slots == 1 ? "board with %u slot" : "board with %u slots", board->n_slots);
  board->source
      = g_strdup (is_taught (inventory) ? "names as the firmware reports them; channels as taught"
                                        : "names as the firmware reports them");
  board->version = 1;
  board->fingerprints = print;
  board->n_fingerprints = 1;
}

/**
 * lid_board_derive:
 * @inventory: an inventory whose devices have their places
 * @order: (nullable) (element-type utf8): slot ids in the order of fitting, where it was taught
 *
 * Slots past %LID_BOARD_MAX_SLOTS are not on the board; no machine comes near.
 *
 * Returns: (transfer full): a board with one slot per device, ids as in the inventory. Its json and
 * hash are NULL, as most inventories are only looked at and making them takes ten times as long as
 * all the rest; lid_board_file_to_node() makes the definition, which the strict loader takes back
 * unless the board has no slot at all
 */
LidBoard *
lid_board_derive (const LidInventory *inventory, const GPtrArray *order)
{
  LidBoard *board = lid_board_new ();
  g_autofree Entry *entries = g_new (Entry, (gsize)inventory->devices->len + 1);
  guint n = list_entries (inventory, entries);

  board->derived = TRUE;
  make_sockets (board, inventory, entries, n);
  make_layout (board, entries, n);
  join_channels_to_sockets (board);
  lid_slot_names_give (board);
  take_generation (board, inventory);
  take_form (board, inventory);
  take_names (board, inventory);
  take_order (board, order);
  take_spellings (board, inventory, entries, n);
  return board;
}
