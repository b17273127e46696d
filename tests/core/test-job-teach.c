/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-list.h"
#include "board/board-match.h"
#include "job/job-file.h"
#include "job/job-teach.h"
#include "locators/locators.h"
#include "support.h"

#include <string.h>

/* A machine whose names tell nothing but a number, in an order that is not the order of numbers.
 * Odd ones are filled. */
static LidInventory *
untold (guint n)
{
  LidInventory *inventory = lid_inventory_new ("gauge", "smbios");

  lid_inventory_add_processor (inventory, "CPU", TRUE);
  for (guint i = n; i >= 1; i--)
    {
      LidDevice *device = lid_inventory_add_device (inventory);

      g_free (device->locator);
      device->locator = g_strdup_printf ("DIMM %u", i);
      device->handle = (gint32)(0x1100 + i);
      if (i % 2 == 0)
        continue;
      device->state = LID_SLOT_FILLED;
      device->capacity_mib = 16384;
      device->module = lid_module_new ();
      lid_module_set (device->module, LID_FACT_CAPACITY, 16384, LID_BASIS_INVENTORY);
    }
  inventory->product = g_strdup ("Gauge");
  lid_locators_place (inventory);
  return inventory;
}

static LidJob *
job_of (guint n)
{
  g_autoptr (LidInventory) inventory = untold (n);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidMatch) match = lid_match_inventory (inventory, NULL, &error);

  g_assert_no_error (error);
  return lid_job_from_inventory (inventory, match);
}

static void
test_teach (void)
{
  g_autoptr (LidJob) job = job_of (8);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) taught = lid_job_teach (job, "first-slots-first:4", &error);

  g_assert_no_error (error);
  g_assert_false (job->board->channels_told);
  g_assert_true (taught->board->channels_told);
  g_assert_cmpuint (taught->board->n_channels, ==, 4);
  for (guint i = 0; i < job->board->n_slots; i++)
    {
      const LidBoardSlot *old = &job->board->slots[i];
      int slot = lid_board_find_slot (taught->board, old->id);
      guint number = (guint)g_ascii_strtoull (old->name + strlen ("DIMM "), NULL, 10);

      g_assert_cmpint (slot, !=, LID_NOWHERE);
      g_assert_cmpuint (taught->board->slots[slot].position, ==, number <= 4 ? 1 : 2);
      g_assert_cmpint (taught->board->slots[slot].channel, ==, (int)((number - 1) % 4));
      g_assert_true ((taught->as_found->slots[slot].module != NULL) == (number % 2 == 1));
    }
}

/* What was taught is found by itself the next time: the fingerprint is the machine's. */
static void
test_found_again (void)
{
  g_autofree char *folder = g_dir_make_tmp ("teach-XXXXXX", NULL);
  g_autoptr (LidJob) job = job_of (8);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) taught = lid_job_teach (job, "by-channel:2", &error);
  g_autoptr (LidInventory) next = untold (8);
  g_autoptr (LidMatch) match = NULL;
  g_autofree char *text = NULL;
  g_autoptr (LidJob) back = NULL;

  g_assert_no_error (error);
  lid_board_list_set_folders (NULL, folder);
  g_assert_true (lid_board_list_save_user (taught->board, &error));
  g_assert_no_error (error);
  match = lid_match_inventory (next, NULL, &error);
  g_assert_cmpint (match->kind, ==, LID_MATCH_EXACT);
  g_assert_true (match->board->channels_told);
  text = lid_job_file_to_text (taught);
  back = lid_job_file_parse (text, strlen (text), &error);
  g_assert_no_error (error);
  g_assert_true (back->board->channels_told);
  for (guint i = 0; i < back->board->n_slots; i++)
    {
      const LidModule *was = taught->as_found->slots[i].module,
                      *is = back->as_found->slots[i].module;

      g_assert_cmpstr (back->board->slots[i].id, ==, taught->board->slots[i].id);
      g_assert_cmpstr (is != NULL ? is->id : NULL, ==, was != NULL ? was->id : NULL);
    }
}

static void
test_offers (void)
{
  g_autoptr (LidJob) eight = job_of (8), seven = job_of (7);
  g_autoptr (GPtrArray) many = lid_job_teach_offers (eight), few = lid_job_teach_offers (seven);

  g_assert_cmpuint (many->len, >=, 4);
  g_assert_cmpstr (many->pdata[0], ==, "by-channel:2");
  g_assert_cmpuint (few->len, ==, 1);
  for (guint i = 0; i < many->len; i++)
    {
      g_autoptr (LidJob) taught = lid_job_teach (eight, many->pdata[i], NULL);
      g_autofree char *words = lid_job_teach_words (many->pdata[i]);

      g_assert_nonnull (taught);
      g_assert_cmpstr (words, !=, many->pdata[i]);
      g_assert_true (taught->board->channels_told);
    }
}

static void
test_refused (void)
{
  g_autoptr (LidJob) job = job_of (7);
  g_autoptr (GError) error = NULL;

  g_assert_null (lid_job_teach (job, "by-channel:2", &error));
  g_assert_nonnull (strstr (error->message, "7 slots"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job-teach/teach", test_teach);
  g_test_add_func ("/job-teach/offers", test_offers);
  g_test_add_func ("/job-teach/refused", test_refused);
  g_test_add_func ("/job-teach/found-again", test_found_again);
  return g_test_run ();
}
