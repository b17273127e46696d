/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sockets.c — which processor and which memory controller a slot belongs to.
 * Numbers are joined by order, never by value: locators count from 1, banks from 0, type 4 as it
 * likes. A processor word names the socket. A node is a processor on some machines and a memory
 * controller on others, and so is a memory board: counting them against the processors tells.
 *   2 processors, nodes 0 1      → a node is a socket
 *   2 processors, nodes 0 1 2 3  → sockets 1 1 2 2, controllers 1 2 1 2
 *   P0_Node0, P0_Node1           → the processor is named, so the nodes are its controllers
 * An array (type 16) is no socket; it only helps to number nodes where names were lost.
 * Source: shared/facts/locators.md, "Same string, different meaning". */
#include "locators/sockets.h"

/**
 * lid_sockets_add_part:
 *
 * Returns: %FALSE when there are too many different values to mean anything
 */
gboolean
lid_sockets_add_part (LidSocketParts *parts, int value)
{
  guint at = 0;

  while (at < parts->n && parts->values[at] < value)
    at++;
  if (at < parts->n && parts->values[at] == value)
    return TRUE;
  if (parts->n == LID_MACHINE_MOST_PARTS)
    return FALSE;
  for (guint i = parts->n++; i > at; i--)
    parts->values[i] = parts->values[i - 1];
  parts->values[at] = (gint16)value;
  return TRUE;
}

/**
 * lid_sockets_part_index:
 *
 * Returns: the value's place in rising order from 0, -1 when it is not among them
 */
int
lid_sockets_part_index (const LidSocketParts *parts, int value)
{
  for (guint i = 0; i < parts->n; i++)
    if (parts->values[i] == value)
      return (int)i;
  return -1;
}

/* Numbers run from 0 where a 0 is seen, else from 1; so that a gap left by slots that lost their
 * names does not shift the rest. */
static int
base_of (const LidSocketParts *parts)
{
  return parts->values[0] == 0 ? 0 : 1;
}

/* From 0. Where the numbers reach past what there can be, they only order. */
static int
order_of (const LidSocketParts *parts, int value, guint most)
{
  int reach = parts->values[parts->n - 1] - base_of (parts) + 1;

  if (most > 0 && reach <= (int)most)
    return value - base_of (parts);
  return lid_sockets_part_index (parts, value);
}

/* "DIMM3B" + "CPU0": what number and letter count there is not known, and the processor is not
 * believed either. Source: locators.md, H2b. */
static gboolean
processor_doubted (const LidMachineSlot *slot)
{
  return slot->locator.shape == LID_SHAPE_NUMBER_LETTER && slot->locator.processor == LID_MARK_NONE
         && slot->bank.channel == LID_MARK_NONE;
}

static int
processor_of (const LidMachineSlot *slot, gboolean bank)
{
  if (bank && processor_doubted (slot))
    return LID_MARK_NONE;
  return lid_machine_marks (slot, bank)->processor;
}

/* One of the two strings speaks for the whole machine, as their bases differ. */
static gboolean
by_processor (LidMachine *machine)
{
  LidSocketParts parts = { .n = 0 };
  guint told[2] = { 0, 0 };
  gboolean bank;

  for (guint i = 0; i < machine->n_slots; i++)
    for (guint b = 0; b < 2; b++)
      told[b] += processor_of (&machine->slots[i], b == 1) != LID_MARK_NONE;
  bank = told[1] > told[0];
  if (told[bank] == 0)
    return FALSE;
  for (guint i = 0; i < machine->n_slots; i++)
    {
      int value = processor_of (&machine->slots[i], bank);
      if (value != LID_MARK_NONE && !lid_sockets_add_part (&parts, value))
        return FALSE;
    }
  for (guint i = 0; i < machine->n_slots; i++)
    {
      int value = processor_of (&machine->slots[i], bank);
      if (value != LID_MARK_NONE)
        machine->slots[i].socket = (gint16)(1 + order_of (&parts, value, machine->n_processors));
    }
  return TRUE;
}

static int
node_of (const LidMachineSlot *slot)
{
  return slot->locator.node != LID_MARK_NONE ? slot->locator.node : slot->bank.node;
}

/* Whether each array carries exactly one part and each part one array: then the arrays tell the
 * order of parts whose slots have lost their names. Gives the array of each part. */
static gboolean
arrays_number_parts (const LidMachine *machine,
                     const LidSocketParts *parts,
                     const gint16 *value_of_slot,
                     int array_of_part[LID_MACHINE_MOST_PARTS])
{
  for (guint p = 0; p < parts->n; p++)
    array_of_part[p] = -1;
  for (guint i = 0; i < machine->n_slots; i++)
    {
      int part = lid_sockets_part_index (parts, value_of_slot[i]);

      if (part < 0)
        continue;
      if (array_of_part[part] >= 0 && array_of_part[part] != machine->slots[i].array)
        return FALSE;
      array_of_part[part] = machine->slots[i].array;
    }
  for (guint p = 1; p < parts->n; p++)
    if (array_of_part[p] <= array_of_part[p - 1])
      return FALSE;
  return TRUE;
}

/**
 * lid_sockets_by_count:
 * @machine: whose slots get a socket, and a controller where one socket has several parts
 * @parts: nodes, boards or letters
 * @value_of_slot: the part each slot names, %LID_MARK_NONE: none
 * @controllers: whether several parts of a socket are its memory controllers
 *
 * Several parts to a processor: the first of them are the first processor's. Where parts and
 * processors do not divide, no socket is claimed, and the parts only keep channels apart.
 */
void
lid_sockets_by_count (LidMachine *machine,
                      const LidSocketParts *parts,
                      const gint16 *value_of_slot,
                      gboolean controllers)
{
  int order[LID_MACHINE_MOST_PARTS];
  guint n = parts->n, per;
  gboolean by_array = machine->lost && machine->n_arrays >= parts->n
                      && arrays_number_parts (machine, parts, value_of_slot, order);

  if (parts->n == 0)
    return;
  if (by_array)
    n = machine->n_arrays;
  else
    for (guint p = 0; p < parts->n; p++)
      order[p] = order_of (parts, parts->values[p], machine->n_processors);
  if (!by_array && n < machine->n_processors)
    n = machine->n_processors;
  if (controllers && parts->n == 1 && machine->n_processors == 0)
    return;
  per = machine->n_processors > 0 && n % machine->n_processors == 0 ? n / machine->n_processors : 0;
  machine->nodes_unsure = controllers && per == 0;
  for (guint i = 0; i < machine->n_slots; i++)
    {
      int part = lid_sockets_part_index (parts, value_of_slot[i]);

      if (part < 0)
        continue;
      if (per > 0)
        machine->slots[i].socket = (gint16)(1 + order[part] / (int)per);
      if (controllers && per != 1)
        machine->slots[i].controller
            = (gint16)(1 + (per > 0 ? order[part] % (int)per : order[part]));
    }
}

/* The processor is named: more than one node on one of them makes the nodes controllers, counted
 * inside the processor; else the node repeats the processor and says nothing new. */
static void
nodes_inside_sockets (LidMachine *machine, const LidSocketParts *nodes, const gint16 *node_of_slot)
{
  gint16 first[LID_MACHINE_MOST_PARTS], socket[LID_MACHINE_MOST_PARTS] = { 0 };
  gboolean several = FALSE;

  for (guint i = 0; i < machine->n_slots; i++)
    {
      int part = lid_sockets_part_index (nodes, node_of_slot[i]);

      if (part < 0 || machine->slots[i].socket == 0)
        continue;
      /* Node numbers may restart on each processor: then a node is no part of one socket. */
      socket[part] = socket[part] != 0 && socket[part] != machine->slots[i].socket
                         ? -1
                         : machine->slots[i].socket;
    }
  for (guint p = 0; p < nodes->n; p++)
    {
      first[p] = 0;
      for (guint q = 0; q < p; q++)
        first[p]
            = (gint16)(first[p] + (socket[p] == -1 || socket[q] == -1 || socket[q] == socket[p]));
      several = several || first[p] > 0;
    }
  for (guint i = 0; several && i < machine->n_slots; i++)
    {
      int part = lid_sockets_part_index (nodes, node_of_slot[i]);
      if (part >= 0)
        machine->slots[i].controller = (gint16)(1 + first[part]);
    }
}

static void
by_node (LidMachine *machine, gint16 *values, gboolean sockets_known)
{
  LidSocketParts parts = { .n = 0 };

  for (guint i = 0; i < machine->n_slots; i++)
    {
      values[i] = (gint16)node_of (&machine->slots[i]);
      if (values[i] != LID_MARK_NONE && !lid_sockets_add_part (&parts, values[i]))
        return;
    }
  if (sockets_known)
    nodes_inside_sockets (machine, &parts, values);
  else
    lid_sockets_by_count (machine, &parts, values, TRUE);
}

static void
by_board (LidMachine *machine, gint16 *values)
{
  LidSocketParts parts = { .n = 0 };

  for (guint i = 0; i < machine->n_slots; i++)
    {
      values[i] = machine->slots[i].locator.board;
      if (values[i] != LID_MARK_NONE && !lid_sockets_add_part (&parts, values[i]))
        return;
    }
  if (parts.n >= machine->n_processors)
    lid_sockets_by_count (machine, &parts, values, FALSE);
}

/* A controller that is named beats a node. */
static void
by_controller_word (LidMachine *machine)
{
  LidSocketParts parts = { .n = 0 };

  for (guint i = 0; i < machine->n_slots; i++)
    {
      const LidMachineSlot *slot = &machine->slots[i];
      int value = MAX (slot->locator.controller, slot->bank.controller);

      if (value != LID_MARK_NONE && !lid_sockets_add_part (&parts, value))
        return;
    }
  for (guint i = 0; parts.n > 0 && i < machine->n_slots; i++)
    {
      LidMachineSlot *slot = &machine->slots[i];
      int value = MAX (slot->locator.controller, slot->bank.controller);

      if (value != LID_MARK_NONE)
        slot->controller = (gint16)(1 + order_of (&parts, value, LID_MACHINE_MOST_PARTS));
    }
}

/**
 * lid_sockets_find:
 * @machine: whose slots get a socket and a controller where words, nodes or boards tell them
 *
 * What letters and digits tell comes later: letters.c.
 */
void
lid_sockets_find (LidMachine *machine)
{
  g_autofree gint16 *values = g_new (gint16, machine->n_slots);
  gboolean known = by_processor (machine);

  by_node (machine, values, known);
  if (!known)
    by_board (machine, values);
  by_controller_word (machine);
}
