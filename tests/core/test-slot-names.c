/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What people call slots that the firmware gives one name. Source of the name pairs: real machines
 * of an open data set, ../shared/data/machines (m0040, m0076, m0104, m0072, m0136, m0014), and
 * ../shared/facts/locators.md section 1, "locator alone repeats in the machine". */
#include "board/board-derive.h"
#include "board/board-file.h"
#include "board/slot-names.h"
#include "locators/locators.h"
#include "locators/slot-ids.h"
#include "readers/readers.h"
#include "support.h"

#include <string.h>

typedef struct
{
  const char *locator, *bank;
  guint handle, array;
  const char *called;
} Row;

static LidBoard *
derive (const Row *rows, guint n)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "smbios");

  for (guint i = 0; i < n; i++)
    {
      LidDevice *device = lid_inventory_add_device (inventory);

      g_free (device->locator);
      g_free (device->bank);
      device->locator = g_strdup (rows[i].locator);
      device->bank = g_strdup (rows[i].bank);
      device->handle = (gint32)rows[i].handle;
      device->array = (gint32)rows[i].array;
    }
  lid_locators_place (inventory);
  return lid_board_derive (inventory, NULL);
}

static guint
slot_of (const LidBoard *board, const char *called)
{
  for (guint i = 0; i < board->n_slots; i++)
    if (strcmp (lid_board_name_slot (board, i), called) == 0)
      return i;
  g_test_message ("nothing is called “%s”", called);
  g_assert_not_reached ();
}

/* Each row's name is one slot's, found by it, and stays when the board is written and read. */
static LidBoard *
check (const Row *rows, guint n)
{
  LidBoard *board = derive (rows, n);
  g_autoptr (JsonNode) node = lid_board_file_to_node (board);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) again = lid_board_file_from_node (node, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (board->n_slots, ==, n);
  for (guint i = 0; i < n; i++)
    {
      guint slot = slot_of (board, rows[i].called);

      g_assert_cmpstr (board->slots[slot].name, ==, rows[i].locator);
      g_assert_cmpint (lid_board_find_slot (board, rows[i].called), ==, (int)slot);
      g_assert_cmpstr (lid_board_name_slot (again, slot), ==, rows[i].called);
    }
  return board;
}

static void
test_bank (void)
{
  static const Row spelled[] = { { "CHANNEL A", "CHANNEL A-DIMM 0", 1, 9, "CHANNEL A-DIMM 0" },
                                 { "CHANNEL A", "CHANNEL A-DIMM 1", 2, 9, "CHANNEL A-DIMM 1" },
                                 { "CHANNEL B", "CHANNEL B-DIMM 0", 3, 9, "CHANNEL B" } };
  static const Row beside[] = { { "DIMM 0", "P0 CHANNEL A", 1, 9, "DIMM 0 (P0 CHANNEL A)" },
                                { "DIMM 0", "P0 CHANNEL B", 2, 9, "DIMM 0 (P0 CHANNEL B)" },
                                { "CPU0", "DIMM01", 3, 9, "CPU0 (DIMM01)" },
                                { "CPU0", "DIMM02", 4, 9, "CPU0 (DIMM02)" } };
  g_autoptr (LidBoard) a = check (spelled, G_N_ELEMENTS (spelled));
  g_autoptr (LidBoard) b = check (beside, G_N_ELEMENTS (beside));

  g_assert_null (lid_slot_names_caveat (a));
  g_assert_null (lid_slot_names_caveat (b));
}

/* Nothing tells them apart but the firmware's own numbers: they are counted, by number and not as
 * digits are spelt (0x005B comes after 0x0058), and that is said. */
static void
test_counted (void)
{
  static const Row handles[] = { { "NO DIMM", "NO DIMM", 0x5b, 9, "NO DIMM (no. 3 of 3)" },
                                 { "NO DIMM", "NO DIMM", 0x57, 9, "NO DIMM (no. 1 of 3)" },
                                 { "DIMM_D1", "NODE 2", 0x59, 9, "DIMM_D1" },
                                 { "NO DIMM", "NO DIMM", 0x58, 9, "NO DIMM (no. 2 of 3)" } };
  static const Row arrays[] = { { "D1", "BANK1", 0x10, 0x24, "D1 (no. 1 of 2)" },
                                { "D2", "BANK2", 0x11, 0x24, "D2 (no. 1 of 2)" },
                                { "D1", "BANK1", 0x20, 0x2f, "D1 (no. 2 of 2)" },
                                { "D2", "BANK2", 0x21, 0x2f, "D2 (no. 2 of 2)" } };
  g_autoptr (LidBoard) a = check (handles, G_N_ELEMENTS (handles));
  g_autoptr (LidBoard) b = check (arrays, G_N_ELEMENTS (arrays));

  g_assert_nonnull (lid_slot_names_caveat (a));
  g_assert_nonnull (lid_slot_names_caveat (b));
  g_assert_false (lid_slot_names_is_counted (a, slot_of (a, "DIMM_D1")));
  g_assert_true (lid_slot_names_is_counted (a, slot_of (a, "NO DIMM (no. 1 of 3)")));
}

/* A list without handles: the ids count already. */
static void
test_list_alone (void)
{
  static const Row rows[]
      = { { "slot", "", (guint)LID_HANDLE_NONE, (guint)LID_HANDLE_NONE, "slot (no. 1 of 2)" },
          { "slot", "", (guint)LID_HANDLE_NONE, (guint)LID_HANDLE_NONE, "slot (no. 2 of 2)" } };
  g_autoptr (LidBoard) board = check (rows, G_N_ELEMENTS (rows));

  g_assert_nonnull (lid_slot_names_caveat (board));
}

/* What a bank spells may be what another slot is called: then nobody is called so but by ids. */
static void
test_strangers (void)
{
  static const Row rows[] = { { "A", "A-1", 1, 9, "A (A-1)" },
                              { "A", "A-2", 2, 9, "A (A-2)" },
                              { "A-1", "", 3, 9, "A-1" } };
  g_autoptr (LidBoard) board = check (rows, G_N_ELEMENTS (rows));

  g_assert_null (lid_slot_names_caveat (board));
}

/* Of 166 real machines 15 have slots of one name: nowhere are two slots called alike. */
static void
test_real_machines (void)
{
  g_autofree char *folder = support_shared ("data/machines");
  g_autoptr (GDir) dir = folder != NULL ? g_dir_open (folder, 0, NULL) : NULL;
  guint n_alike = 0, n_counted = 0;

  if (dir == NULL)
    {
      g_test_skip ("no shared data");
      return;
    }
  for (const char *name; (name = g_dir_read_name (dir)) != NULL;)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (LidInventory) inventory = lid_readers_read_path (path, NULL);
      g_autoptr (GHashTable) calls = g_hash_table_new (g_str_hash, g_str_equal);
      g_autoptr (LidBoard) board = NULL;
      gboolean alike = FALSE;

      lid_locators_place (inventory);
      board = lid_board_derive (inventory, NULL);
      for (guint i = 0; i < board->n_slots; i++)
        {
          g_assert_true (g_hash_table_add (calls, (gpointer)lid_board_name_slot (board, i)));
          alike = alike || board->slots[i].label != NULL;
        }
      n_alike += alike;
      n_counted += lid_slot_names_caveat (board) != NULL;
    }
  g_assert_cmpuint (n_alike, ==, 15);
  g_assert_cmpuint (n_counted, ==, 7);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/slot-names/bank", test_bank);
  g_test_add_func ("/slot-names/counted", test_counted);
  g_test_add_func ("/slot-names/list-alone", test_list_alone);
  g_test_add_func ("/slot-names/strangers", test_strangers);
  g_test_add_func ("/slot-names/real-machines", test_real_machines);
  return g_test_run ();
}
