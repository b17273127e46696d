/* SPDX-License-Identifier: GPL-3.0-or-later */
/* teach-groups-apply.c — what was told slot by slot, put onto the slots of a machine.
 * Invariant: whole or not at all. */
#include "locators/teach-groups-private.h"

#include "base/error.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
refuse (GError **error, const char *format, const char *word)
{
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL, format, word);
  return FALSE;
}

static char *
without_blanks (const char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *p = text; *p != 0; p++)
    if (!g_ascii_isspace (*p))
      g_string_append_c (out, g_ascii_tolower (*p));
  return g_string_free (out, FALSE);
}

static gboolean
is_called (const LidDevice *device, const char *word)
{
  g_autofree char *id = without_blanks (device->slot), *name = without_blanks (device->locator);

  return strcmp (id, word) == 0 || strcmp (name, word) == 0;
}

/* The id is unique; a name is taken where no second slot has it. */
static gboolean
find_device (const LidInventory *inventory, const char *slot, guint *found, GError **error)
{
  g_autofree char *word = without_blanks (slot);
  guint n = 0;

  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];

      if (device->state == LID_SLOT_SOLDERED)
        continue;
      if (strcmp (device->slot, slot) == 0)
        {
          *found = i;
          return TRUE;
        }
      if (!is_called (device, word))
        continue;
      *found = i;
      n++;
    }
  if (n == 1)
    return TRUE;
  return refuse (error,
                 n == 0 ? _ ("“%s” is no slot of this machine")
                        : _ ("more than one slot is called “%s”: write its id, as “read” lists it"),
                 slot);
}

/* Whose device is of entry @i; all told once. */
static gboolean
find_all (const LidTeachGroups *groups,
          const LidInventory *inventory,
          guint *devices,
          GError **error)
{
  for (guint i = 0; i < groups->entries->len; i++)
    {
      if (!find_device (inventory, lid_teach_groups_entry (groups, i)->slot, &devices[i], error))
        return FALSE;
      for (guint k = 0; k < i; k++)
        if (devices[k] == devices[i])
          return refuse (error, _ ("“%s” is told twice"), lid_teach_groups_entry (groups, i)->slot);
    }
  return TRUE;
}

static gboolean
need_all (const LidTeachGroups *groups,
          const LidInventory *inventory,
          const guint *devices,
          GError **error)
{
  for (guint d = 0; !groups->rest && d < inventory->devices->len; d++)
    {
      const LidDevice *device = inventory->devices->pdata[d];
      gboolean told = device->state == LID_SLOT_SOLDERED;

      for (guint i = 0; i < groups->entries->len && !told; i++)
        told = devices[i] == d;
      if (!told)
        return refuse (
            error, _ ("the channel of “%s” is not told; end with “,...” to leave the rest open"),
            device->slot);
    }
  return TRUE;
}

/* A channel belongs to one processor: the one that was told, else the one its slots' names state.
 */
static gboolean
settle_sockets (LidTeachGroups *told,
                const LidInventory *inventory,
                const guint *devices,
                GError **error)
{
  for (guint i = 0; i < told->entries->len; i++)
    {
      LidTeachEntry *entry = lid_teach_groups_entry (told, i);
      const LidDevice *device = inventory->devices->pdata[devices[i]];

      if (entry->socket == 0)
        entry->socket = device->place.socket;
      for (guint k = 0; k < i; k++)
        if (lid_teach_groups_entry (told, k)->group == entry->group
            && lid_teach_groups_entry (told, k)->socket != entry->socket)
          return refuse (error, _ ("“%s” belongs to another processor than the slots before it"),
                         entry->slot);
    }
  return TRUE;
}

/* Called in order, on each processor anew, and never as another is called there. */
static gboolean
settle_names (LidTeachGroups *told, GError **error)
{
  for (guint i = 0; i < told->entries->len; i++)
    {
      LidTeachEntry *entry = lid_teach_groups_entry (told, i);

      for (guint k = 0; k < i; k++)
        {
          const LidTeachEntry *other = lid_teach_groups_entry (told, k);

          if (other->group == entry->group && entry->channel == NULL)
            entry->channel = g_strdup (other->channel);
          if (other->group != entry->group && other->socket == entry->socket
              && entry->channel != NULL && strcmp (other->channel, entry->channel) == 0)
            return refuse (error, _ ("two channels of one processor are called “%s”"),
                           entry->channel);
        }
      if (entry->channel == NULL)
        entry->channel = lid_teach_groups_next_channel (told, entry->socket);
    }
  return TRUE;
}

static void
write_places (const LidTeachGroups *told, LidInventory *inventory, const guint *devices)
{
  for (guint d = 0; d < inventory->devices->len; d++)
    {
      LidDevice *device = inventory->devices->pdata[d];

      if (device->state == LID_SLOT_SOLDERED)
        continue;
      g_clear_pointer (&device->place.channel, g_free);
      device->place.controller = device->place.position = 0;
      device->place.told_by = LID_TOLD_NOT;
    }
  for (guint i = 0; i < told->entries->len; i++)
    {
      const LidTeachEntry *entry = lid_teach_groups_entry (told, i);
      LidPlace *place = &((LidDevice *)inventory->devices->pdata[devices[i]])->place;

      place->socket = entry->socket;
      place->channel = g_strdup (entry->channel);
      place->position = 1;
      place->told_by = LID_TOLD_TAUGHT;
      for (guint k = 0; k < i; k++)
        place->position += lid_teach_groups_entry (told, k)->group == entry->group;
    }
}

/**
 * lid_teach_groups_apply:
 * @groups: what was told
 * @inventory: whose devices have their places and slot ids from lid_locators_place(); what is told
 * replaces channel, controller and position, also where the names stated them
 * @error: LID_ERROR_BAD_CALL where it does not fit this machine; then nothing is changed
 *
 * Returns: whether it fits
 */
gboolean
lid_teach_groups_apply (const LidTeachGroups *groups, LidInventory *inventory, GError **error)
{
  g_autoptr (LidTeachGroups) told = lid_teach_groups_new ();
  g_autofree guint *devices = g_new0 (guint, groups->entries->len + 1);

  told->rest = groups->rest;
  for (guint i = 0; i < groups->entries->len; i++)
    {
      LidTeachEntry entry = *lid_teach_groups_entry (groups, i);

      entry.slot = g_strdup (entry.slot);
      entry.channel = g_strdup (entry.channel);
      g_array_append_val (told->entries, entry);
    }
  if (!find_all (told, inventory, devices, error) || !need_all (told, inventory, devices, error)
      || !settle_sockets (told, inventory, devices, error) || !settle_names (told, error))
    return FALSE;
  write_places (told, inventory, devices);
  return TRUE;
}
