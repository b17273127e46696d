/* SPDX-License-Identifier: GPL-3.0-or-later */
/* positions.c — the place of a slot inside its channel, from 1.
 * Slot numbers come in two fashions. They restart on every channel (A1 A2, B1 B2, or from 0): the
 * number counts from the least one seen. Or they run on over the channels of a processor (A1 A3,
 * B2 B4): only their order inside the channel says anything. They run on where no number comes
 * twice on a processor.
 * Invariant left behind: no two slots share socket, controller, channel and position. Two of one
 * array that would are only not numbered well: their channel gets no positions. Two of different
 * arrays contradict each other, since a channel lies in one array: then no channel is claimed at
 * all, unless an array each makes them processors that name their slots alike. */
#include "locators/positions.h"

#include <stdlib.h>

typedef struct
{
  guint64 group; /* socket, controller, channel */
  int number;
  guint slot;
} Entry;

static guint64
group_of (const LidMachineSlot *slot)
{
  return ((guint64)(guint16)slot->socket << 32) | ((guint64)(guint16)slot->controller << 16)
         | (guint16)slot->channel;
}

static int
compare_entries (const void *a, const void *b)
{
  const Entry *x = a, *y = b;

  if (x->group != y->group)
    return x->group < y->group ? -1 : 1;
  if (x->number != y->number)
    return x->number < y->number ? -1 : 1;
  return x->slot < y->slot ? -1 : x->slot > y->slot;
}

static guint
list_entries (const LidMachine *machine, Entry *entries)
{
  guint n = 0;

  for (guint i = 0; i < machine->n_slots; i++)
    if (machine->slots[i].channel != LID_MARK_NONE)
      entries[n++] = (Entry){ group_of (&machine->slots[i]), machine->slots[i].number, i };
  qsort (entries, n, sizeof *entries, compare_entries);
  return n;
}

/* Two slots that claim the same place though a channel cannot lie in two arrays. */
static gboolean
contradicts (const LidMachine *machine, const Entry *entries, guint n)
{
  for (guint i = 1; i < n; i++)
    if (entries[i].group == entries[i - 1].group && entries[i].number == entries[i - 1].number
        && entries[i].number != LID_MARK_NONE
        && machine->slots[entries[i].slot].array != machine->slots[entries[i - 1].slot].array)
      return TRUE;
  return FALSE;
}

/* Two processors whose slots have the same names: only the array keeps them apart, and an array
 * each is taken as the processor there. Source: locators.md, section 4, last but sixth row. */
static gboolean
part_by_array (LidMachine *machine)
{
  if (machine->n_processors < 2 || machine->n_arrays != machine->n_processors)
    return FALSE;
  for (guint i = 0; i < machine->n_slots; i++)
    if (machine->slots[i].socket != 0)
      return FALSE;
  for (guint i = 0; i < machine->n_slots; i++)
    machine->slots[i].socket = (gint16)(1 + machine->slots[i].array);
  return TRUE;
}

/* Whether a letter stands for two channels that only their controller keeps apart. */
static gboolean
needs_controllers (const Entry *entries, const LidMachine *machine, guint n)
{
  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n; j++)
      {
        const LidMachineSlot *a = &machine->slots[entries[i].slot];
        const LidMachineSlot *b = &machine->slots[entries[j].slot];

        if (a->socket != b->socket)
          break;
        if (a->channel == b->channel && a->controller != b->controller && a->controller != 0
            && b->controller != 0)
          return TRUE;
      }
  return FALSE;
}

/* The strings of an empty slot may have lost the controller that those of a filled one on the same
 * channel state: told for some channels only, it would make the others look like one more
 * controller. So it is told for all or for none. */
static void
settle_controllers (LidMachine *machine, Entry *entries)
{
  guint without = 0, with = 0, n = 0;

  for (guint i = 0; i < machine->n_slots; i++)
    if (machine->slots[i].channel != LID_MARK_NONE)
      {
        with += machine->slots[i].controller != 0;
        without += machine->slots[i].controller == 0;
      }
  if (with == 0 || (without == 0 && !machine->lost && !machine->nodes_unsure))
    return;
  n = list_entries (machine, entries);
  if (n <= 1024 && needs_controllers (entries, machine, n))
    return;
  for (guint i = 0; i < machine->n_slots; i++)
    machine->slots[i].controller = 0;
}

/* Whether no number comes twice on the processor whose entries begin at @first. */
static gboolean
numbers_run_on (const Entry *entries, guint first, guint end)
{
  guint64 seen = 0;
  guint groups = 1;

  for (guint i = first; i < end; i++)
    {
      if (entries[i].number == LID_MARK_NONE)
        return FALSE;
      groups += i > first && entries[i].group != entries[i - 1].group;
      if (entries[i].number >= 64)
        continue;
      if (seen & ((guint64)1 << entries[i].number))
        return FALSE;
      seen |= (guint64)1 << entries[i].number;
    }
  return groups > 1;
}

/* A slot without a number beside others of its channel leaves open whether they count from 0 or 1,
 * and the same number twice leaves open which is which: none of that channel gets a place. Alone on
 * its channel a slot needs no number. */
static void
place_channel (
    LidMachine *machine, const Entry *entries, guint first, guint end, int base, gboolean run_on)
{
  if (end - first == 1 && !machine->lost)
    {
      machine->slots[entries[first].slot].position
          = (gint16)(entries[first].number == LID_MARK_NONE || run_on
                         ? 1
                         : entries[first].number - base + 1);
      return;
    }
  for (guint i = first; i < end; i++)
    if (entries[i].number == LID_MARK_NONE
        || (i > first && entries[i].number == entries[i - 1].number))
      return;
  for (guint i = first; i < end; i++)
    machine->slots[entries[i].slot].position
        = (gint16)(run_on ? (int)(i - first) + 1 : entries[i].number - base + 1);
}

static int
least_number (const LidMachine *machine, const Entry *entries, guint n)
{
  int least = machine->lost ? 1 : G_MAXINT;

  for (guint i = 0; i < n; i++)
    if (entries[i].number != LID_MARK_NONE)
      least = MIN (least, entries[i].number);
  return least;
}

static void
place_all (LidMachine *machine, const Entry *entries, guint n)
{
  int base = least_number (machine, entries, n);

  for (guint first = 0, end; first < n; first = end)
    {
      gboolean run_on;

      for (end = first; end < n && entries[end].group >> 32 == entries[first].group >> 32;)
        end++;
      run_on = numbers_run_on (entries, first, end) && !machine->lost;
      for (guint c = first, next; c < end; c = next)
        {
          for (next = c; next < end && entries[next].group == entries[c].group;)
            next++;
          place_channel (machine, entries, c, next, base, run_on);
        }
    }
}

/**
 * lid_positions_find:
 * @machine: whose slots have their channels; gets positions
 *
 * Returns: %FALSE when the names contradict each other; then no slot has a channel any more
 */
gboolean
lid_positions_find (LidMachine *machine)
{
  g_autofree Entry *entries = g_new (Entry, (gsize)machine->n_slots + 1);
  guint n;

  settle_controllers (machine, entries);
  n = list_entries (machine, entries);
  if (contradicts (machine, entries, n) && part_by_array (machine))
    n = list_entries (machine, entries);
  if (contradicts (machine, entries, n))
    {
      for (guint i = 0; i < machine->n_slots; i++)
        machine->slots[i].channel = LID_MARK_NONE;
      return FALSE;
    }
  place_all (machine, entries, n);
  return TRUE;
}
