/* SPDX-License-Identifier: GPL-3.0-or-later */
/* slot-ids.c — a name for every slot that no other slot of the machine has.
 * The locator, as reported but for runs of blanks, where it is the only one of its kind; else what
 * tells its namesakes apart is added in brackets, the first of these that does: the bank, the
 * array, bank and array, the handle. So the id depends on what the firmware says of the slot, not
 * on the order of the list, and stays the same when the same firmware is read again:
 *   DIMM 0 (P0 CHANNEL B)     D7 (array 0x0047)     NO DIMM (0x0059)
 * Ids differ by more than case, as people type them. */
#include "locators/slot-ids.h"

#include <stdlib.h>

#define MOST_NAME 120 /* bytes of a locator or bank that go into an id */

typedef enum
{
  WITH_NOTHING,
  WITH_BANK,
  WITH_ARRAY,
  WITH_BANK_AND_ARRAY,
  WITH_HANDLE,
  WITH_COUNT,
  N_FORMS
} Form;

/* The text with runs of blanks as one blank, cut at a character's end. */
static void
append_name (GString *out, const char *text)
{
  gsize start = out->len;
  gboolean blank = FALSE;

  for (const char *at = text; *at != 0; at = g_utf8_next_char (at))
    {
      gsize size = (gsize)(g_utf8_next_char (at) - at);

      if (out->len - start + size > MOST_NAME)
        return;
      if ((guchar)*at <= ' ')
        {
          blank = out->len > start;
          continue;
        }
      if (blank)
        g_string_append_c (out, ' ');
      blank = FALSE;
      g_string_append_len (out, at, (gssize)size);
    }
}

static char *
make_id (const LidDevice *device, Form form, guint index)
{
  GString *out = g_string_sized_new (32);

  append_name (out, *device->locator != 0 ? device->locator : device->bank);
  if (out->len == 0)
    g_string_append (out, "slot");
  switch (form)
    {
    case WITH_BANK:
      g_string_append (out, " (");
      append_name (out, device->bank);
      g_string_append_c (out, ')');
      break;
    case WITH_ARRAY:
      g_string_append_printf (out, " (array 0x%04X)", (guint)device->array);
      break;
    case WITH_BANK_AND_ARRAY:
      g_string_append (out, " (");
      append_name (out, device->bank);
      g_string_append_printf (out, ", array 0x%04X)", (guint)device->array);
      break;
    case WITH_HANDLE:
      g_string_append_printf (out, " (0x%04X)", (guint)device->handle);
      break;
    case WITH_COUNT:
      g_string_append_printf (out, " #%u", index + 1);
      break;
    case WITH_NOTHING:
    case N_FORMS:
    default:
      break;
    }
  return g_string_free (out, FALSE);
}

static gboolean
can_form (const LidDevice *device, Form form)
{
  switch (form)
    {
    case WITH_BANK:
      return *device->bank != 0 && *device->locator != 0;
    case WITH_ARRAY:
      return device->array != LID_HANDLE_NONE;
    case WITH_BANK_AND_ARRAY:
      return *device->bank != 0 && *device->locator != 0 && device->array != LID_HANDLE_NONE;
    case WITH_HANDLE:
      return device->handle != LID_HANDLE_NONE;
    case WITH_NOTHING:
    case WITH_COUNT:
    case N_FORMS:
    default:
      return TRUE;
    }
}

typedef struct
{
  LidDevice *device;
  guint index; /* in the list */
  char *id;
} Entry;

static int
compare_entries (const void *a, const void *b)
{
  const Entry *x = a, *y = b;
  int order = g_ascii_strcasecmp (x->id, y->id);

  return order != 0 ? order : (x->index > y->index) - (x->index < y->index);
}

static gboolean
all_differ (Entry *entries, guint n)
{
  qsort (entries, n, sizeof *entries, compare_entries);
  for (guint i = 1; i < n; i++)
    if (g_ascii_strcasecmp (entries[i].id, entries[i - 1].id) == 0)
      return FALSE;
  return TRUE;
}

/* Slots of the same name: the first form that all of them can take and that tells them apart. */
static void
name_group (Entry *entries, guint n)
{
  for (Form form = WITH_BANK; n > 1 && form < N_FORMS; form++)
    {
      gboolean possible = TRUE;

      for (guint i = 0; i < n; i++)
        possible = possible && can_form (entries[i].device, form);
      for (guint i = 0; possible && i < n; i++)
        {
          g_free (entries[i].id);
          entries[i].id = make_id (entries[i].device, form, entries[i].index);
        }
      if (possible && all_differ (entries, n))
        return;
    }
}

/* One slot's locator may read like the id made for another ("A (B)"): the later one gets a count
 * that nobody has. */
static void
part_strangers (Entry *entries, guint n)
{
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < n; i++)
    g_hash_table_add (taken, g_ascii_strdown (entries[i].id, -1));
  for (guint i = 1; i < n; i++)
    {
      guint count = 2;

      if (g_ascii_strcasecmp (entries[i].id, entries[i - 1].id) != 0)
        continue;
      for (gboolean free = FALSE; !free; count++)
        {
          g_autofree char *id = g_strdup_printf ("%s #%u", entries[i].id, count);
          g_autofree char *folded = g_ascii_strdown (id, -1);

          free = !g_hash_table_contains (taken, folded);
          if (!free)
            continue;
          g_hash_table_add (taken, g_steal_pointer (&folded));
          g_free (entries[i].device->slot);
          entries[i].device->slot = g_steal_pointer (&id);
        }
    }
}

/**
 * lid_slot_ids_give:
 * @inventory: whose devices get their slot ids; old ones are replaced
 */
void
lid_slot_ids_give (LidInventory *inventory)
{
  guint n = inventory->devices->len;
  g_autofree Entry *entries = g_new (Entry, (gsize)n + 1);
  gboolean apart;

  for (guint i = 0; i < n; i++)
    {
      LidDevice *device = inventory->devices->pdata[i];
      entries[i] = (Entry){ device, i, make_id (device, WITH_NOTHING, i) };
    }
  qsort (entries, n, sizeof *entries, compare_entries);
  for (guint first = 0, end; first < n; first = end)
    {
      for (end = first + 1;
           end < n && g_ascii_strcasecmp (entries[end].id, entries[first].id) == 0;)
        end++;
      name_group (entries + first, end - first);
    }
  apart = all_differ (entries, n);
  for (guint i = 0; i < n; i++)
    {
      g_free (entries[i].device->slot);
      entries[i].device->slot = g_strdup (entries[i].id);
    }
  if (!apart)
    part_strangers (entries, n);
  for (guint i = 0; i < n; i++)
    g_free (entries[i].id);
}
