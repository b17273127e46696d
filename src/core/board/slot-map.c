/* SPDX-License-Identifier: GPL-3.0-or-later */
/* slot-map.c — the names a list gives its slots, mapped to a board's.
 *
 * Four passes, the surest first, each slot taken once: locator and bank as the board spells them;
 * the locator alone, where the board spells no bank; the slot's id; the slot's name. A machine that
 * repeats a pair (2 % of real ones, shared/facts/locators.md) takes its slots in the order listed.
 */
#include "board/slot-map.h"

#include "base/text.h"
#include "board/board-names.h"

#include <string.h>

typedef struct
{
  const LidBoard *board;
  const LidInventory *inventory;
  int *slot_of_device;
  guint8 *taken;      /* per slot */
  GPtrArray *devices; /* per device: its line as board-names.h writes it */
  GPtrArray *spelled; /* per spelling: likewise */
} Mapping;

/* A text report prints the strings of the tables; one spelling serves both. */
static const char *
format_of (const LidInventory *inventory)
{
  return g_strcmp0 (inventory->format, "report") == 0 ? "smbios" : inventory->format;
}

static void
take (Mapping *mapping, guint device, guint slot)
{
  mapping->slot_of_device[device] = (int)slot;
  mapping->taken[slot] = TRUE;
}

static void
map_by_spelling (Mapping *mapping, guint device)
{
  const LidBoard *board = mapping->board;

  for (guint i = 0; i < board->n_spellings; i++)
    if (!mapping->taken[board->spellings[i].slot]
        && strcmp (mapping->spelled->pdata[i], mapping->devices->pdata[device]) == 0
        && g_strcmp0 (board->spellings[i].format, format_of (mapping->inventory)) == 0)
      {
        take (mapping, device, board->spellings[i].slot);
        return;
      }
}

static void
map_by_locator (Mapping *mapping, guint device)
{
  const LidBoard *board = mapping->board;
  const LidDevice *told = mapping->inventory->devices->pdata[device];

  for (guint i = 0; i < board->n_spellings; i++)
    if (!mapping->taken[board->spellings[i].slot] && board->spellings[i].bank == NULL
        && *told->locator != 0 && lid_text_equal_folded (board->spellings[i].locator, told->locator)
        && g_strcmp0 (board->spellings[i].format, format_of (mapping->inventory)) == 0)
      {
        take (mapping, device, board->spellings[i].slot);
        return;
      }
}

static void
map_by_id (Mapping *mapping, guint device)
{
  const LidDevice *told = mapping->inventory->devices->pdata[device];
  int slot = lid_board_find_slot (mapping->board, told->locator);

  if (slot == LID_NOWHERE && told->slot != NULL)
    slot = lid_board_find_slot (mapping->board, told->slot);
  if (slot != LID_NOWHERE && !mapping->taken[slot])
    take (mapping, device, (guint)slot);
}

static void
run_pass (Mapping *mapping, void (*map) (Mapping *mapping, guint device))
{
  for (guint i = 0; i < mapping->inventory->devices->len; i++)
    if (mapping->slot_of_device[i] == LID_NOWHERE)
      map (mapping, i);
}

static void
map_by_names (Mapping *mapping)
{
  const LidBoard *board = mapping->board;
  const GPtrArray *devices = mapping->inventory->devices;

  for (guint i = 0; i < devices->len; i++)
    {
      const LidDevice *device = devices->pdata[i];

      lid_board_names_add (mapping->devices, device->locator, device->bank);
    }
  for (guint i = 0; i < board->n_spellings; i++)
    lid_board_names_add (mapping->spelled, board->spellings[i].locator, board->spellings[i].bank);
  run_pass (mapping, map_by_spelling);
  run_pass (mapping, map_by_locator);
  run_pass (mapping, map_by_id);
}

/**
 * lid_slot_map_new:
 * @board: a board
 * @inventory: a list of slots; after lid_locators_place() its own slot ids count too
 * @n_unmapped: (out) (nullable): devices that are on no slot of the board
 *
 * Returns: (transfer full): per device the slot, LID_NOWHERE for none; g_free() it
 */
int *
lid_slot_map_new (const LidBoard *board, const LidInventory *inventory, guint *n_unmapped)
{
  g_autofree guint8 *taken = g_new0 (guint8, board->n_slots + 1);
  g_autoptr (GPtrArray) devices = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) spelled = g_ptr_array_new_with_free_func (g_free);
  Mapping mapping = { board, inventory, NULL, taken, devices, spelled };
  guint n = 0;

  mapping.slot_of_device = g_new (int, inventory->devices->len + 1);
  for (guint i = 0; i < inventory->devices->len; i++)
    mapping.slot_of_device[i] = LID_NOWHERE;
  map_by_names (&mapping);
  for (guint i = 0; i < inventory->devices->len; i++)
    n += mapping.slot_of_device[i] == LID_NOWHERE;
  if (n_unmapped != NULL)
    *n_unmapped = n;
  return mapping.slot_of_device;
}

/**
 * lid_slot_map_derived:
 * @board: a board derived from @inventory: its slot ids are the devices'
 *
 * Returns: (transfer full): as lid_slot_map_new()
 */
int *
lid_slot_map_derived (const LidBoard *board, const LidInventory *inventory)
{
  g_autoptr (GHashTable) slots = g_hash_table_new (g_str_hash, g_str_equal);
  int *slot_of_device = g_new (int, inventory->devices->len + 1);

  for (guint i = 0; i < board->n_slots; i++)
    g_hash_table_insert (slots, board->slots[i].id, GUINT_TO_POINTER (i + 1));
  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];

      slot_of_device[i] = device->slot == NULL
                              ? LID_NOWHERE
                              : GPOINTER_TO_INT (g_hash_table_lookup (slots, device->slot)) - 1;
    }
  return slot_of_device;
}

static void
set_place (LidDevice *device, const LidBoard *board, const LidBoardSlot *slot)
{
  const LidBoardChannel *channel
      = slot->channel != LID_NOWHERE ? &board->channels[slot->channel] : NULL;

  g_free (device->slot);
  g_free (device->place.channel);
  device->slot = g_strdup (slot->id);
  device->place = (LidPlace){
    .socket = slot->socket != LID_NOWHERE ? slot->socket + 1 : 0,
    .controller = channel != NULL ? channel->controller : 0,
    .channel = channel != NULL ? g_strdup (channel->name) : NULL,
    .position = channel != NULL ? (int)slot->position : 0,
    .told_by = channel != NULL ? LID_TOLD_BOARD : LID_TOLD_NOT,
  };
}

/* On no slot of the board: a name of its own that no slot has, and no place. */
static void
set_stray (LidDevice *device, const LidBoard *board, guint index)
{
  g_free (device->place.channel);
  device->place = (LidPlace){ 0 };
  if (device->slot != NULL && lid_board_find_slot (board, device->slot) == LID_NOWHERE)
    return;
  g_free (device->slot);
  device->slot = g_strdup_printf ("#%u", index + 1);
}

/**
 * lid_slot_map_place:
 * @board: a board
 * @inventory: gets the board's slot ids and places
 * @slot_of_device: from lid_slot_map_new()
 */
void
lid_slot_map_place (const LidBoard *board, LidInventory *inventory, const int *slot_of_device)
{
  for (guint i = 0; i < inventory->devices->len; i++)
    if (slot_of_device[i] != LID_NOWHERE)
      set_place (inventory->devices->pdata[i], board, &board->slots[slot_of_device[i]]);
    else
      set_stray (inventory->devices->pdata[i], board, i);
}
