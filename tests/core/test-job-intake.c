/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-list.h"
#include "job/job.h"
#include "locators/locators.h"
#include "readers/readers.h"
#include "support.h"

/* The logger box of the tide gauge: chips soldered in, and a module beside them. */
static LidInventory *
read_dunlin (void)
{
  g_autofree char *path = support_data ("machines/dunlin-s1.txt");
  g_autoptr (GError) error = NULL;
  LidInventory *inventory = lid_readers_read_path (path, &error);

  g_assert_no_error (error);
  lid_locators_place (inventory);
  return inventory;
}

static LidDevice *
soldered_of (LidInventory *inventory)
{
  for (guint i = 0; i < inventory->devices->len; i++)
    {
      LidDevice *device = inventory->devices->pdata[i];

      if (device->state == LID_SLOT_SOLDERED)
        return device;
    }
  g_assert_not_reached ();
}

static LidModule *
taken_in (LidInventory *inventory, LidJob **job)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidMatch) match = lid_match_inventory (inventory, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (match->board->id, ==, "dunlin-s1");
  *job = lid_job_from_inventory (inventory, match);
  return (*job)->as_found->slots[lid_board_find_slot (match->board, "On board")].module;
}

/* What the inventory leaves open of soldered chips is the board's word; what it tells stands. */
static void
test_soldered_keeps_board_facts (void)
{
  g_autoptr (LidInventory) inventory = read_dunlin ();
  LidModule *told = soldered_of (inventory)->module;
  g_autoptr (LidJob) job = NULL;
  LidModule *module;

  g_assert_false (lid_module_knows (told, LID_FACT_DIE));
  g_assert_false (lid_module_knows (told, LID_FACT_CHIP_WIDTH));
  lid_module_set (told, LID_FACT_RATED, (gint32)lid_rate_exact (2400), LID_BASIS_INVENTORY);
  lid_module_set_text (&told->serial, "00001A2B");
  module = taken_in (inventory, &job);
  g_assert_cmpint (module->value[LID_FACT_DIE], ==, 16);
  g_assert_cmpint (module->value[LID_FACT_CHIP_WIDTH], ==, 16);
  g_assert_cmpuint (lid_module_rated (module), ==, lid_rate_exact (2400));
  g_assert_cmpstr (module->serial, ==, "00001A2B");
}

/* Another size soldered in is another variant: the board's word on its chips is not taken. */
static void
test_other_chips_stay_unknown (void)
{
  g_autoptr (LidInventory) inventory = read_dunlin ();
  LidModule *told = soldered_of (inventory)->module;
  g_autoptr (LidJob) job = NULL;
  LidModule *module;

  lid_module_set (told, LID_FACT_CAPACITY, 16384, LID_BASIS_INVENTORY);
  module = taken_in (inventory, &job);
  g_assert_cmpint (lid_module_capacity (module), ==, 16384);
  g_assert_false (lid_module_knows (module, LID_FACT_DIE));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job-intake/soldered", test_soldered_keeps_board_facts);
  g_test_add_func ("/job-intake/other-chips", test_other_chips_stay_unknown);
  return g_test_run ();
}
