/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-file.h"
#include "board/board-list.h"
#include "board/board-match.h"
#include "board/board-teach.h"
#include "locators/locators.h"
#include "readers/readers.h"
#include "support.h"

#include <glib/gstdio.h>
#include <string.h>

static char *user_folder;

static LidInventory *
read_machine (const char *name)
{
  g_autofree char *relative = g_build_filename ("machines", name, NULL);
  g_autofree char *path = support_data (relative);
  g_autoptr (GError) error = NULL;
  LidInventory *inventory = lid_readers_read_path (path, &error);

  g_assert_no_error (error);
  lid_locators_place (inventory);
  return inventory;
}

static LidMatch *
match (LidInventory *inventory)
{
  g_autoptr (GError) error = NULL;
  LidMatch *found = lid_match_inventory (inventory, NULL, &error);

  g_assert_no_error (error);
  return found;
}

/* Puts a text of the inventory in place of another. */
static void
set (char **field, const char *text)
{
  g_free (*field);
  *field = g_strdup (text);
}

static void
check_machine (const char *name)
{
  g_autoptr (LidInventory) inventory = read_machine (name);
  g_autoptr (LidMatch) found = match (inventory);
  g_autofree char *id = g_strndup (name, (gsize)(strchr (name, '.') - name));
  g_autofree guint8 *taken = NULL;

  g_test_message ("%s", name);
  g_assert_cmpint (found->kind, ==, LID_MATCH_EXACT);
  g_assert_cmpstr (found->board->id, ==, id);
  g_assert_cmpuint (found->differences->len, ==, 0);
  g_assert_cmpuint (inventory->devices->len, ==, found->board->n_slots);
  taken = g_new0 (guint8, found->board->n_slots);
  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];
      int slot = found->slot_of_device[i];

      g_assert_cmpint (slot, !=, LID_NOWHERE);
      g_assert_cmpuint (taken[slot]++, ==, 0);
      g_assert_cmpstr (device->slot, ==, found->board->slots[slot].id);
      g_assert_cmpint (device->place.told_by, ==, LID_TOLD_BOARD);
      g_assert_cmpint (device->place.socket, ==, found->board->slots[slot].socket + 1);
      g_assert_cmpint (device->place.position, ==, (int)found->board->slots[slot].position);
    }
}

/* Every machine of tests/data/machines has its board: found by scan. */
static void
test_machines (void)
{
  g_autofree char *folder = support_data ("machines");
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".bin") || g_str_has_suffix (name, ".txt"))
      {
        check_machine (name);
        n++;
      }
  g_assert_cmpuint (n, >=, 6);
}

/* The machine a board describes, as its firmware would report it. */
static LidInventory *
describe (const LidBoard *board)
{
  LidInventory *inventory = lid_inventory_new (board->id, "smbios");

  set (&inventory->product, board->fingerprints[0].product);
  set (&inventory->board_product, board->fingerprints[0].board);
  for (guint i = 0; i < board->fingerprints[0].n_arrays; i++)
    {
      LidArray array = { .handle = (gint32)i, .system_memory = TRUE };

      g_array_append_val (inventory->arrays, array);
    }
  for (guint i = 0; i < board->n_spellings; i++)
    {
      LidDevice *device = lid_inventory_add_device (inventory);

      device->handle = (gint32)(0x1100 + i);
      set (&device->locator, board->spellings[i].locator ? board->spellings[i].locator : "");
      set (&device->bank, board->spellings[i].bank ? board->spellings[i].bank : "");
    }
  lid_locators_place (inventory);
  return inventory;
}

/* Every board is found again from what its own machine reports, and every slot by its name. */
static void
test_every_board (void)
{
  g_autoptr (GPtrArray) boards = lid_board_list_all ();

  g_assert_cmpuint (boards->len, >=, 29);
  for (guint i = 0; i < boards->len; i++)
    {
      const LidBoardEntry *entry = boards->pdata[i];
      g_autoptr (GError) error = NULL;
      g_autoptr (LidBoard) board = lid_board_list_load (entry->path, &error);
      g_autoptr (LidInventory) inventory = describe (board);
      g_autoptr (LidMatch) found = match (inventory);

      g_test_message ("%s", board->id);
      g_assert_cmpint (found->kind, ==, LID_MATCH_EXACT);
      g_assert_cmpstr (found->board->id, ==, board->id);
      g_assert_cmpuint (inventory->devices->len, ==, board->n_slots);
      for (guint k = 0; k < board->n_spellings; k++)
        g_assert_cmpint (found->slot_of_device[k], ==, (int)board->spellings[k].slot);
    }
}

/* On the sandpiper the print runs against the order of fitting: "DIMM 2" is the first slot. */
static void
test_names_need_not_follow_position (void)
{
  g_autoptr (LidInventory) inventory = read_machine ("sandpiper-t1.bin");
  g_autoptr (LidMatch) found = match (inventory);
  const LidDevice *second = inventory->devices->pdata[1];

  g_assert_cmpstr (second->locator, ==, "DIMM 2");
  g_assert_cmpstr (second->place.channel, ==, "A");
  g_assert_cmpint (second->place.position, ==, 1);
}

static void
check_offered (LidInventory *inventory, const char *id, const char *difference)
{
  g_autoptr (LidMatch) found = match (inventory);
  g_autofree char *all = NULL;

  g_ptr_array_add (found->differences, NULL);
  all = g_strjoinv (" ", (char **)found->differences->pdata);
  g_test_message ("%s", all);
  g_assert_cmpint (found->kind, ==, LID_MATCH_OFFERED);
  g_assert_true (found->board->derived);
  g_assert_cmpstr (found->offered->id, ==, id);
  g_assert_nonnull (strstr (all, difference));
  for (guint i = 0; i < inventory->devices->len; i++)
    g_assert_cmpint (found->slot_of_device[i], !=, LID_NOWHERE);
}

static void
test_weaker_matches_are_offered (void)
{
  g_autoptr (LidInventory) product = read_machine ("plover-r2.bin");
  g_autoptr (LidInventory) silent = read_machine ("plover-r2.bin");
  g_autoptr (LidInventory) system = read_machine ("plover-r2.bin");
  g_autoptr (LidInventory) arrays = read_machine ("plover-r2.bin");
  g_autoptr (LidInventory) banks = read_machine ("plover-r2.bin");

  set (&product->product, "Plover R9");
  check_offered (product, "plover-r2", "“Plover R9”");
  /* A report of types 16 and 17 only, or with fillers: nothing to tell machines apart by. */
  set (&silent->product, "To be filled by O.E.M.");
  g_clear_pointer (&silent->board_product, g_free);
  check_offered (silent, "plover-r2", "does not tell the product");
  set (&system->board_product, "PLV-R3");
  check_offered (system, "plover-r2", "“PLV-R3”");
  g_array_set_size (arrays->arrays, 2);
  check_offered (arrays, "plover-r2", "2 memory arrays");
  for (guint i = 0; i < banks->devices->len; i++)
    set (&((LidDevice *)banks->devices->pdata[i])->bank, "");
  check_offered (banks, "plover-r2", "banks have others");
}

static void
test_strangers_are_derived (void)
{
  g_autoptr (LidInventory) inventory = read_machine ("plover-r2.bin");
  g_autoptr (LidMatch) found = NULL;

  set (&((LidDevice *)inventory->devices->pdata[3])->locator, "P1-DIMMB9");
  lid_locators_place (inventory);
  found = match (inventory);
  g_assert_cmpint (found->kind, ==, LID_MATCH_DERIVED);
  g_assert_null (found->offered);
  g_assert_true (found->board->derived);
}

/* Without blanks counted and with the tool's word for a missing string, names are the same. */
static void
test_names_fold (void)
{
  g_autoptr (LidInventory) inventory = read_machine ("gannet-r2.bin");
  g_autoptr (LidMatch) found = NULL;

  for (guint i = 0; i < inventory->devices->len; i++)
    {
      LidDevice *device = inventory->devices->pdata[i];

      set (&device->bank, i % 2 ? "Not Specified" : "");
      if (g_str_has_prefix (device->locator, "PROC 1 "))
        {
          g_autofree char *wide = g_strdup_printf ("PROC  1 %s", device->locator + 7);
          set (&device->locator, wide);
        }
    }
  found = match (inventory);
  g_assert_cmpint (found->kind, ==, LID_MATCH_EXACT);
}

static void
test_given_board (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) plover = lid_board_list_load ("plover-r2", &error);
  g_autoptr (LidBoard) tern = lid_board_list_load ("tern-w4", &error);
  g_autoptr (LidInventory) same = read_machine ("plover-r2.bin");
  g_autoptr (LidInventory) other = read_machine ("plover-r2.bin");
  g_autoptr (LidInventory) hopeless = read_machine ("plover-r2.bin");
  g_autoptr (LidMatch) exact = lid_match_inventory (same, plover, &error), given = NULL;
  LidDevice *renamed = other->devices->pdata[0];

  g_assert_no_error (error);
  g_assert_cmpint (exact->kind, ==, LID_MATCH_EXACT);
  set (&renamed->locator, "LOST");
  set (&renamed->bank, "LOST");
  set (&renamed->slot, "1-A1");
  set (&((LidDevice *)other->devices->pdata[1])->locator, "1-A2");
  given = lid_match_inventory (other, plover, &error);
  g_assert_cmpint (given->kind, ==, LID_MATCH_EXACT);
  g_assert_true (given->given);
  g_assert_cmpint (given->slot_of_device[1], ==, lid_board_find_slot (plover, "1-A2"));
  /* Its own slot id is the board's: that maps it, whatever the locator says. */
  g_assert_cmpint (given->slot_of_device[0], ==, lid_board_find_slot (plover, "1-A1"));
  g_assert_null (lid_match_inventory (hopeless, tern, &error));
  g_assert_nonnull (strstr (error->message, "knows none of the slots"));
}

static void
test_given_board_tells_what_is_left_out (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) plover = lid_board_list_load ("plover-r2", &error);
  g_autoptr (LidInventory) inventory = read_machine ("plover-r2.bin");
  LidDevice *lost = inventory->devices->pdata[0];
  g_autoptr (LidMatch) given = NULL;

  set (&lost->locator, "LOST");
  set (&lost->bank, "");
  set (&lost->slot, "LOST");
  given = lid_match_inventory (inventory, plover, &error);
  g_assert_cmpint (given->slot_of_device[0], ==, LID_NOWHERE);
  g_assert_cmpint (given->kind, ==, LID_MATCH_OFFERED);
  g_assert_true (given->board == plover);
  g_assert_cmpuint (given->differences->len, ==, 2);
  g_assert_nonnull (strstr (given->differences->pdata[0], "“LOST”"));
  g_assert_nonnull (strstr (given->differences->pdata[1], "1-A1"));
  g_assert_null (lost->place.channel);
}

/* The slots agree and the names of the machine do not: said, and the board is used all the same. */
static void
test_given_board_of_another_name (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) plover = lid_board_list_load ("plover-r2", &error);
  g_autoptr (LidInventory) inventory = read_machine ("plover-r2.bin");
  g_autoptr (LidInventory) silent = read_machine ("plover-r2.bin");
  g_autoptr (LidMatch) given = NULL, untold = NULL;

  set (&inventory->product, "Dabchick R2");
  given = lid_match_inventory (inventory, plover, &error);
  g_assert_cmpint (given->kind, ==, LID_MATCH_OFFERED);
  g_assert_true (given->board == plover);
  g_assert_cmpuint (given->differences->len, ==, 1);
  g_assert_nonnull (strstr (given->differences->pdata[0], "Dabchick R2"));
  g_clear_pointer (&silent->product, g_free);
  untold = lid_match_inventory (silent, plover, &error);
  g_assert_cmpint (untold->kind, ==, LID_MATCH_EXACT);
}

/* What was taught is the user's board: matched exactly next time, gone when its file is gone. */
static void
test_users_board (void)
{
  g_autoptr (LidInventory) first = read_machine ("plover-r2.bin"), next = NULL, last = NULL;
  g_autoptr (LidBoard) board = NULL;
  g_autoptr (LidMatch) found = NULL, gone = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_build_filename (user_folder, "heron-1.json", NULL);
  g_autofree char *index = g_build_filename (user_folder, "index", NULL);

  set (&first->product, "Heron 1");
  board = lid_board_teach (first, NULL, "by-channel:2", "/some/where/Heron 1.json");
  g_assert_cmpstr (board->id, ==, "heron-1");
  g_assert_cmpuint (board->n_fingerprints, ==, 1);
  g_assert_true (lid_board_list_save_user (board, &error));
  g_assert_no_error (error);

  next = read_machine ("plover-r2.bin");
  set (&next->product, "Heron 1");
  found = match (next);
  g_assert_cmpint (found->kind, ==, LID_MATCH_EXACT);
  g_assert_cmpstr (found->board->id, ==, "heron-1");
  g_assert_true (g_file_test (index, G_FILE_TEST_EXISTS));

  g_assert_cmpint (g_remove (path), ==, 0);
  lid_board_list_set_folders (NULL, user_folder);
  last = read_machine ("plover-r2.bin");
  set (&last->product, "Heron 1");
  gone = match (last);
  g_assert_cmpint (gone->kind, ==, LID_MATCH_OFFERED);
  g_assert_cmpstr (gone->offered->id, ==, "plover-r2");
  g_remove (index);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  user_folder = g_dir_make_tmp ("lidleaf-XXXXXX", NULL);
  lid_board_list_set_folders (NULL, user_folder);
  g_test_add_func ("/board-match/machines", test_machines);
  g_test_add_func ("/board-match/every-board", test_every_board);
  g_test_add_func ("/board-match/names-need-not-follow-position",
                   test_names_need_not_follow_position);
  g_test_add_func ("/board-match/weaker-are-offered", test_weaker_matches_are_offered);
  g_test_add_func ("/board-match/strangers-are-derived", test_strangers_are_derived);
  g_test_add_func ("/board-match/names-fold", test_names_fold);
  g_test_add_func ("/board-match/given", test_given_board);
  g_test_add_func ("/board-match/given-left-out", test_given_board_tells_what_is_left_out);
  g_test_add_func ("/board-match/given-other-name", test_given_board_of_another_name);
  g_test_add_func ("/board-match/users-board", test_users_board);
  status = g_test_run ();
  lid_board_list_set_folders (NULL, NULL);
  g_rmdir (user_folder);
  g_free (user_folder);
  return status;
}
