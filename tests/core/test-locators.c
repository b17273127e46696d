/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "locators/locators.h"
#include "readers/readers.h"
#include "support.h"

#include <stdlib.h>
#include <string.h>

/* Cases: tests/data/locators/, one file per group of families, one machine after the other, the
 * places worked out from the grid each machine was drawn up from. Families and spellings:
 * shared/facts/locators.md, section 2, counted there over 5,048 machines of an open data set. */

typedef struct
{
  GPtrArray *rows;
  guint first, end; /* rows of one machine */
} Case;

static LidInventory *
make_inventory (const Case *c)
{
  LidInventory *inventory = lid_inventory_new ("case", "test");
  guint processors
      = (guint)g_ascii_strtoull (support_cell (c->rows, c->first, "processors"), NULL, 10);

  for (guint i = 0; i < processors; i++)
    lid_inventory_add_processor (inventory, "x", TRUE);
  for (guint i = c->first; i < c->end; i++)
    {
      LidDevice *device = lid_inventory_add_device (inventory);

      device->handle = (gint32)i; /* finds the row again after shuffling */
      device->array = atoi (support_cell (c->rows, i, "array"));
      g_free (device->locator);
      g_free (device->bank);
      device->locator = g_strdup (support_cell (c->rows, i, "locator"));
      device->bank = g_strdup (support_cell (c->rows, i, "bank"));
    }
  return inventory;
}

static char *
describe (const LidPlace *place)
{
  return g_strdup_printf ("socket %d controller %d channel %s position %d", place->socket,
                          place->controller, place->channel != NULL ? place->channel : "",
                          place->position);
}

static void
check_places (const Case *c, const LidInventory *inventory)
{
  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];
      guint row = (guint)device->handle;
      g_autofree char *got = describe (&device->place);
      g_autofree char *want = g_strdup_printf ("socket %d controller %d channel %s position %d",
                                               atoi (support_cell (c->rows, row, "socket")),
                                               atoi (support_cell (c->rows, row, "controller")),
                                               support_cell (c->rows, row, "channel"),
                                               atoi (support_cell (c->rows, row, "position")));

      if (strcmp (got, want) != 0)
        {
          g_test_message ("%s: %s | %s: %s, want %s", support_cell (c->rows, row, "machine"),
                          device->locator, device->bank, got, want);
          g_test_fail ();
        }
      g_assert_true ((device->place.channel == NULL) == (device->place.told_by == LID_TOLD_NOT));
    }
}

static void
check_slot_ids (const LidInventory *inventory)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];

      g_assert_nonnull (device->slot);
      g_assert_cmpuint (strlen (device->slot), >, 0);
      g_assert_true (g_utf8_validate (device->slot, -1, NULL));
      g_assert_true (g_hash_table_add (seen, g_ascii_strdown (device->slot, -1)));
    }
}

static void
shuffle (LidInventory *inventory, GRand *rand)
{
  gpointer *devices = inventory->devices->pdata;

  for (guint i = inventory->devices->len; i > 1; i--)
    {
      guint j = (guint)g_rand_int_range (rand, 0, (gint32)i);
      gpointer swap = devices[i - 1];

      devices[i - 1] = devices[j];
      devices[j] = swap;
    }
}

static GHashTable *
ids_by_handle (const LidInventory *inventory)
{
  GHashTable *ids = g_hash_table_new_full (NULL, NULL, NULL, g_free);

  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];
      g_hash_table_insert (ids, GINT_TO_POINTER (device->handle), g_strdup (device->slot));
    }
  return ids;
}

/* The order of the list says nothing: places and ids must not hang on it. */
static void
check_case (const Case *c)
{
  g_autoptr (LidInventory) inventory = make_inventory (c);
  g_autoptr (GRand) rand = g_rand_new_with_seed (c->first + 1);
  g_autoptr (GHashTable) ids = NULL;

  lid_locators_place (inventory);
  check_places (c, inventory);
  check_slot_ids (inventory);
  ids = ids_by_handle (inventory);
  for (guint round = 0; round < 3; round++)
    {
      shuffle (inventory, rand);
      lid_locators_place (inventory);
      check_places (c, inventory);
      for (guint i = 0; i < inventory->devices->len; i++)
        {
          const LidDevice *device = inventory->devices->pdata[i];
          g_assert_cmpstr (device->slot, ==,
                           g_hash_table_lookup (ids, GINT_TO_POINTER (device->handle)));
        }
    }
}

static void
test_file (gconstpointer data)
{
  g_autofree char *path = support_data (data);
  Case c = { .rows = support_read_csv (path), .first = 1 };

  for (; c.first < c.rows->len; c.first = c.end)
    {
      const char *machine = support_cell (c.rows, c.first, "machine");

      for (c.end = c.first;
           c.end < c.rows->len && strcmp (machine, support_cell (c.rows, c.end, "machine")) == 0;)
        c.end++;
      check_case (&c);
    }
  g_ptr_array_unref (c.rows);
}

static const char *
how_many (guint told, guint all)
{
  return told == 0 ? "none" : told == all ? "all" : "some";
}

/* Real machines where our reading and the manifest's differ, and why. */
typedef struct
{
  const char *file, *column, *want, *why;
} Exception;

static const Exception exceptions[] = {
  { "m0114.txt", "channel_told", "none",
    "DIMM_A1 to A8 on CPU1, B1 to B8 on CPU2: the letter repeats the processor, eight slots are no "
    "channel (locators.md: numbers above 3 mean that the letter is the processor)" },
};

static const char *
wanted (const char *file, const char *column, const char *manifest)
{
  for (guint i = 0; i < G_N_ELEMENTS (exceptions); i++)
    if (strcmp (file, exceptions[i].file) == 0 && strcmp (column, exceptions[i].column) == 0)
      return exceptions[i].want;
  return strcmp (manifest, "one") == 0 ? "all" : manifest;
}

static void
check_told (const GPtrArray *rows, guint row, const char *column, guint told, guint all)
{
  const char *file = support_cell (rows, row, "file");
  const char *want = wanted (file, column, support_cell (rows, row, column));

  if (strcmp (want, how_many (told, all)) != 0)
    {
      g_test_message ("%s %s: %s, want %s", file, column, how_many (told, all), want);
      g_test_fail ();
    }
}

/* 166 real reports; what their strings tell is from the manifest beside them, made by a program of
 * its own. Source: shared/data/manifest.csv. */
static void
test_real_machines (void)
{
  g_autofree char *manifest = support_shared ("data/manifest.csv");
  g_autoptr (GPtrArray) rows = NULL;

  if (manifest == NULL)
    {
      g_test_skip ("no shared data");
      return;
    }
  rows = support_read_csv (manifest);
  for (guint row = 1; row < rows->len; row++)
    {
      g_autofree char *name
          = g_build_filename ("data/machines", support_cell (rows, row, "file"), NULL);
      g_autofree char *path = support_shared (name);
      g_autoptr (GError) error = NULL;
      g_autoptr (LidInventory) inventory = lid_readers_read_path (path, &error);
      guint sockets = 0, channels = 0;

      g_assert_no_error (error);
      lid_locators_place (inventory);
      check_slot_ids (inventory);
      for (guint i = 0; i < inventory->devices->len; i++)
        {
          const LidPlace *place = &((LidDevice *)inventory->devices->pdata[i])->place;
          sockets += place->socket > 0;
          channels += place->channel != NULL;
        }
      g_assert_cmpuint (inventory->devices->len, ==, atoi (support_cell (rows, row, "slots")));
      check_told (rows, row, "socket_told", sockets, inventory->devices->len);
      check_told (rows, row, "channel_told", channels, inventory->devices->len);
      g_assert_true (lid_locators_channels_told (inventory)
                     == (channels == inventory->devices->len && channels > 0));
    }
}

static void
add_random_text (GString *out, GRand *rand)
{
  static const char *const parts[]
      = { "DIMM",       "CPU",   "P",       "CH",     "CHANNEL", "NODE", "BANK", "A",         "B",
          "Z",          "0",     "1",       "2",      "17",      "_",    "-",    " ",         "/",
          "(",          ")",     "J",       "C0",     "D1",      "MC",   "µ",    "槽",        "\t",
          "9999999999", "BOARD", "NO DIMM", "SOCKET", "DDR4",    "#",    ",",    "Controller" };
  guint n = (guint)g_rand_int_range (rand, 0, 9);

  for (guint i = 0; i < n; i++)
    g_string_append (out, parts[g_rand_int_range (rand, 0, G_N_ELEMENTS (parts))]);
}

/* Whatever the strings: ids differ, a place is held by one slot only, no number is out of range. */
static void
test_hostile (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20240607);

  for (guint round = 0; round < 3000; round++)
    {
      g_autoptr (LidInventory) inventory = lid_inventory_new ("hostile", "test");
      g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
      guint n = (guint)g_rand_int_range (rand, 0, 30), few = (guint)g_rand_int_range (rand, 1, 4);

      for (guint p = (guint)g_rand_int_range (rand, 0, 5); p > 0; p--)
        lid_inventory_add_processor (inventory, "", TRUE);
      for (guint i = 0; i < n; i++)
        {
          LidDevice *device = lid_inventory_add_device (inventory);
          GString *locator = g_string_new (NULL), *bank = g_string_new (NULL);

          add_random_text (locator, rand);
          add_random_text (bank, rand);
          g_free (device->locator);
          g_free (device->bank);
          device->locator = g_string_free (locator, FALSE);
          device->bank = g_string_free (bank, FALSE);
          device->array = (gint32)(i % few);
          device->handle = round % 2 ? (gint32)i : LID_HANDLE_NONE;
        }
      lid_locators_place (inventory);
      check_slot_ids (inventory);
      for (guint i = 0; i < n; i++)
        {
          const LidPlace *place = &((LidDevice *)inventory->devices->pdata[i])->place;

          g_assert_cmpint (place->socket, >=, 0);
          g_assert_cmpint (place->controller, >=, 0);
          g_assert_cmpint (place->position, >=, 0);
          if (place->channel != NULL && place->position > 0)
            g_assert_true (g_hash_table_add (taken, describe (place)));
        }
    }
}

/* The most devices an inventory holds, the longest names, all alike or all different. */
static void
test_large (void)
{
  for (guint kind = 0; kind < 5; kind++)
    {
      g_autoptr (LidInventory) inventory = lid_inventory_new ("large", "test");
      g_autofree char *tail = g_strnfill (256, 'x');
      gint64 start;

      lid_inventory_add_processor (inventory, "", TRUE);
      lid_inventory_add_processor (inventory, "", TRUE);
      for (guint i = 0; i < LID_INVENTORY_MAX_DEVICES; i++)
        {
          LidDevice *device = lid_inventory_add_device (inventory);

          g_free (device->locator);
          device->array = (gint32)i;
          if (kind == 0)
            device->locator = g_strdup (tail);
          else if (kind == 1)
            device->locator = g_strdup_printf ("%s%u", tail, i);
          else if (kind == 2)
            device->locator = g_strdup_printf ("CPU%u_DIMM_A%u", i, i);
          else if (kind == 3)
            device->locator = g_strdup_printf ("Controller%u-Channel%c-DIMM%u", i % 64,
                                               'A' + (int)(i % 26), i / 64);
          else
            device->locator
                = g_strdup_printf ("NODE %u DIMM_%c%u", i % 63, 'A' + (int)(i % 26), i % 3);
        }
      start = g_get_monotonic_time ();
      lid_locators_place (inventory);
      check_slot_ids (inventory);
      g_assert_cmpint (g_get_monotonic_time () - start, <, 5 * G_USEC_PER_SEC);
    }
}

static void
test_contradiction_is_said (void)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "test");

  for (guint i = 0; i < 2; i++)
    {
      LidDevice *device = lid_inventory_add_device (inventory);

      g_free (device->locator);
      device->locator = g_strdup ("CHANNEL A DIMM 0");
      device->handle = (gint32)i;
      device->array = (gint32)i;
    }
  lid_locators_place (inventory);
  g_assert_cmpuint (inventory->remarks->len, ==, 1);
  g_assert_false (lid_locators_channels_told (inventory));
}

int
main (int argc, char **argv)
{
  static const char *const files[] = { "A", "B", "C", "D", "E", "G", "H", "N", "Z" };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *name = g_strdup_printf ("/locators/family/%s", files[i]);
      g_test_add_data_func_full (name, g_strdup_printf ("locators/%s.csv", files[i]), test_file,
                                 g_free);
    }
  g_test_add_func ("/locators/real-machines", test_real_machines);
  g_test_add_func ("/locators/hostile", test_hostile);
  g_test_add_func ("/locators/large", test_large);
  g_test_add_func ("/locators/contradiction", test_contradiction_is_said);
  return g_test_run ();
}
