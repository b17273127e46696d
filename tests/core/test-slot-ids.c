/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "locators/slot-ids.h"
#include "support.h"

#include <string.h>

typedef struct
{
  const char *locator, *bank;
  gint32 array, handle;
  const char *id;
} Row;

static void
check (const Row *rows, guint n)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "test");

  for (guint i = 0; i < n; i++)
    {
      LidDevice *device = lid_inventory_add_device (inventory);

      g_free (device->locator);
      g_free (device->bank);
      device->locator = g_strdup (rows[i].locator);
      device->bank = g_strdup (rows[i].bank);
      device->array = rows[i].array;
      device->handle = rows[i].handle;
    }
  for (guint round = 0; round < 2; round++)
    {
      lid_slot_ids_give (inventory);
      for (guint i = 0; i < n; i++)
        g_assert_cmpstr (((LidDevice *)inventory->devices->pdata[i])->slot, ==, rows[i].id);
    }
}

#define NONE LID_HANDLE_NONE

static void
test_forms (void)
{
  static const Row plain[]
      = { { "DIMM  A1", "x", 1, 2, "DIMM A1" }, { "dimm a2 ", "x", 1, 3, "dimm a2" } };
  static const Row by_bank[] = { { "DIMM 0", "P0 CHANNEL A", 1, 2, "DIMM 0 (P0 CHANNEL A)" },
                                 { "Dimm 0", "P0 CHANNEL B", 1, 3, "Dimm 0 (P0 CHANNEL B)" },
                                 { "DIMM 1", "P0 CHANNEL B", 1, 4, "DIMM 1" } };
  static const Row by_array[] = { { "D0", "BANK0", 0x24, 2, "D0 (array 0x0024)" },
                                  { "D0", "BANK0", 0x2f, 3, "D0 (array 0x002F)" } };
  static const Row by_both[] = { { "D", "A", 1, 2, "D (A, array 0x0001)" },
                                 { "D", "B", 1, 3, "D (B, array 0x0001)" },
                                 { "D", "A", 2, 4, "D (A, array 0x0002)" } };
  static const Row by_handle[] = { { "NO DIMM", "NO DIMM", 1, 0x57, "NO DIMM (0x0057)" },
                                   { "NO DIMM", "NO DIMM", 1, 0x58, "NO DIMM (0x0058)" },
                                   { "NO DIMM", "NO DIMM", 2, 0x59, "NO DIMM (0x0059)" } };
  static const Row by_count[]
      = { { "D", "", NONE, NONE, "D #1" }, { "D", "", NONE, NONE, "D #2" } };
  static const Row nameless[] = { { "", "BANK 0", 1, 2, "BANK 0" }, { "", "", 1, 3, "slot" } };

  check (plain, G_N_ELEMENTS (plain));
  check (by_bank, G_N_ELEMENTS (by_bank));
  check (by_array, G_N_ELEMENTS (by_array));
  check (by_both, G_N_ELEMENTS (by_both));
  check (by_handle, G_N_ELEMENTS (by_handle));
  check (by_count, G_N_ELEMENTS (by_count));
  check (nameless, G_N_ELEMENTS (nameless));
}

/* A name that reads like the id made for another slot. */
static void
test_strangers (void)
{
  static const Row rows[] = { { "D", "A", 1, 2, "D (A)" },
                              { "D", "B", 1, 3, "D (B)" },
                              { "D (a)", "", 1, 4, "D (a) #3" },
                              { "D (A) #2", "", 1, 5, "D (A) #2" } };

  check (rows, G_N_ELEMENTS (rows));
}

/* Long names are cut at a character, and cut alike they still differ. */
static void
test_long (void)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "test");
  LidDevice *a = lid_inventory_add_device (inventory), *b = lid_inventory_add_device (inventory);

  for (guint i = 0; i < 100; i++)
    g_string_append (text, "槽");
  g_free (a->locator);
  g_free (b->locator);
  a->locator = g_strdup (text->str);
  b->locator = g_strdup_printf ("%sx", text->str);
  lid_slot_ids_give (inventory);
  g_assert_true (g_utf8_validate (a->slot, -1, NULL) && g_utf8_validate (b->slot, -1, NULL));
  g_assert_cmpstr (a->slot, !=, b->slot);
  g_assert_cmpuint (strlen (a->slot), <=, 200);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/slot-ids/forms", test_forms);
  g_test_add_func ("/slot-ids/strangers", test_strangers);
  g_test_add_func ("/slot-ids/long", test_long);
  return g_test_run ();
}
