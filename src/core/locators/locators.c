/* SPDX-License-Identifier: GPL-3.0-or-later */
/* locators.c — from what a firmware calls its slots to where they are.
 * Two free-text strings a slot, and no standard says what goes into them. So each string is first
 * read word by word (tokens.c, marks.c), then the machine is judged as a whole:
 *   sockets.c    processors named, nodes and boards counted
 *   letters.c    what the letter and the digit of a pair mean here
 *   channels.c   the channel each slot states
 *   positions.c  its place in the channel; contradictions
 *   slot-ids.c   a name nobody else has
 * Nothing is claimed that the strings do not state; in almost half of real servers that leaves the
 * channel untold, which is a normal state. What is certain without strings: on a machine with one
 * processor every slot is its own; a single slot is on the only channel there is. */
#include "locators/locators.h"

#include "locators/channels.h"
#include "locators/letters.h"
#include "locators/machine.h"
#include "locators/positions.h"
#include "locators/slot-ids.h"
#include "locators/sockets.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Firmware writes the same bank for many slots: the reading of the one before is kept. */
static void
read_strings (LidMachine *machine, const LidInventory *inventory)
{
  for (guint i = 0; i < machine->n_slots; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];
      const LidDevice *before = i > 0 ? inventory->devices->pdata[i - 1] : NULL;
      LidMachineSlot *slot = &machine->slots[i];

      slot->channel = slot->number = LID_MARK_NONE;
      lid_marks_read (device->locator, FALSE, &slot->locator);
      if (before != NULL && strcmp (before->bank, device->bank) == 0)
        slot->bank = machine->slots[i - 1].bank;
      else
        lid_marks_read (device->bank, TRUE, &slot->bank);
      machine->lost = machine->lost || slot->locator.lost;
    }
}

/* Arrays in the order of their handles; more than believable count as none. */
static void
number_arrays (LidMachine *machine, const LidInventory *inventory)
{
  gint32 handles[LID_MACHINE_MOST_PARTS];
  guint n = 0;

  for (guint i = 0; i < machine->n_slots; i++)
    {
      gint32 handle = ((LidDevice *)inventory->devices->pdata[i])->array;
      guint at = 0;

      while (at < n && handles[at] < handle)
        at++;
      if (at < n && handles[at] == handle)
        continue;
      if (n == LID_MACHINE_MOST_PARTS)
        return;
      memmove (handles + at + 1, handles + at, (n - at) * sizeof *handles);
      handles[at] = handle;
      n++;
    }
  machine->n_arrays = n;
  for (guint i = 0; i < machine->n_slots; i++)
    {
      gint32 handle = ((LidDevice *)inventory->devices->pdata[i])->array;

      for (guint a = 0; a < n && handles[a] <= handle; a++)
        machine->slots[i].array = (gint16)a;
    }
}

/* With one processor there is no other that a slot could belong to. But where the firmware tells
 * the processor of slots it can name, nothing is said of those it cannot: it may list slots that
 * the board does not have. */
static void
settle_single_socket (LidMachine *machine)
{
  gboolean told = FALSE;

  if (machine->n_processors != 1)
    return;
  for (guint i = 0; i < machine->n_slots; i++)
    told = told || machine->slots[i].socket != 0;
  for (guint i = 0; i < machine->n_slots; i++)
    if (machine->slots[i].socket == 0 && !(told && machine->slots[i].locator.lost))
      machine->slots[i].socket = 1;
}

static char *
channel_name (int channel)
{
  if (lid_mark_is_letter (channel))
    return g_strdup_printf ("%c", 'A' + channel - LID_MARK_FIRST_LETTER);
  return g_strdup_printf ("%d", channel);
}

static void
write_places (const LidMachine *machine, LidInventory *inventory)
{
  for (guint i = 0; i < machine->n_slots; i++)
    {
      LidDevice *device = inventory->devices->pdata[i];
      const LidMachineSlot *slot = &machine->slots[i];
      LidPlace *place = &device->place;

      g_free (place->channel);
      *place = (LidPlace){ .socket = slot->socket, .controller = slot->controller };
      if (slot->channel != LID_MARK_NONE)
        {
          place->channel = channel_name (slot->channel);
          place->position = slot->position;
          place->told_by = LID_TOLD_STRINGS;
        }
      else if (machine->n_slots == 1)
        {
          place->channel = g_strdup ("1");
          place->position = 1;
          place->told_by = LID_TOLD_ONLY_ONE;
        }
    }
}

/**
 * lid_locators_place:
 * @inventory: whose devices get their place and their slot id; both are set anew
 *
 * Adds a remark where the strings contradict themselves.
 */
void
lid_locators_place (LidInventory *inventory)
{
  LidMachine machine
      = { .n_slots = inventory->devices->len, .n_processors = inventory->processors->len };
  LidLettersRole roles[LID_LETTERS_N_CLASSES];
  g_autofree LidMachineSlot *slots = g_new0 (LidMachineSlot, machine.n_slots);

  if (machine.n_slots == 0)
    return;
  machine.slots = slots;
  read_strings (&machine, inventory);
  number_arrays (&machine, inventory);
  lid_sockets_find (&machine);
  lid_letters_judge (&machine, roles);
  settle_single_socket (&machine);
  lid_channels_find (&machine, roles);
  if (!lid_positions_find (&machine))
    lid_inventory_remark (inventory, _ ("slot names"),
                          _ ("Compare with the print on the board and teach the channels."),
                          _ ("The names put two slots into the same place, so no channel is "
                             "taken from them."));
  write_places (&machine, inventory);
  lid_slot_ids_give (inventory);
}

/**
 * lid_locators_channels_told:
 *
 * Returns: whether there are slots and the channel of each is known
 */
gboolean
lid_locators_channels_told (const LidInventory *inventory)
{
  for (guint i = 0; i < inventory->devices->len; i++)
    if (((LidDevice *)inventory->devices->pdata[i])->place.channel == NULL)
      return FALSE;
  return inventory->devices->len > 0;
}
