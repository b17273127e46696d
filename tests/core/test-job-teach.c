/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-list.h"
#include "board/board-match.h"
#include "job/job-file.h"
#include "job/job-open.h"
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

static LidJob *
job_with (const char *names)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("gauge", "smbios");
  g_auto (GStrv) list = g_strsplit (names, "|", -1);
  g_autoptr (LidMatch) match = NULL;

  lid_inventory_add_processor (inventory, "CPU", TRUE);
  for (guint i = 0; list[i] != NULL; i++)
    {
      LidDevice *device = lid_inventory_add_device (inventory);

      g_free (device->locator);
      device->locator = g_strdup (list[i]);
      device->handle = (gint32)(0x1100 + i);
    }
  lid_locators_place (inventory);
  match = lid_match_inventory (inventory, NULL, NULL);
  return lid_job_from_inventory (inventory, match);
}

static gboolean
has (const GPtrArray *offers, const char *word)
{
  for (guint i = 0; i < offers->len; i++)
    if (g_str_has_prefix (offers->pdata[i], word))
      return TRUE;
  return FALSE;
}

/* A letter once on each slot may be the order of fitting, never the processor; with none, neither
 * is offered. */
static void
test_letters (void)
{
  g_autoptr (LidJob) with
      = job_with ("PROC 1 DIMM 1C|PROC 1 DIMM 2A|PROC 1 DIMM 3D|PROC 1 DIMM 4B");
  g_autoptr (LidJob) without = job_with ("DIMM 1|DIMM 2|DIMM 3|DIMM 4");
  g_autoptr (GPtrArray) order = lid_job_teach_offers (with);
  g_autoptr (GPtrArray) none = lid_job_teach_offers (without);

  g_assert_true (has (order, "letter-order"));
  g_assert_false (has (order, "letter-socket"));
  g_assert_false (has (none, "letter-order"));
}

/* What the first told, the second keeps: channels and order of fitting, in either order. */
static void
test_both (void)
{
  static const char *const turns[][2]
      = { { "letter-order", "by-channel:2" }, { "by-channel:2", "letter-order" } };

  for (guint turn = 0; turn < 2; turn++)
    {
      g_autoptr (LidJob) job = job_with ("DIMM 1C|DIMM 2A|DIMM 3D|DIMM 4B");
      g_autoptr (LidJob) once = NULL, twice = NULL;
      g_autoptr (GError) error = NULL;

      once = lid_job_teach (job, turns[turn][0], &error);
      g_assert_no_error (error);
      twice = lid_job_teach (once, turns[turn][1], &error);
      g_assert_no_error (error);
      g_assert_true (twice->board->channels_told);
      g_assert_cmpuint (twice->board->n_channels, ==, 2);
      g_assert_cmpuint (twice->board->n_order, ==, 4);
      g_assert_cmpstr (twice->board->slots[twice->board->order[0]].name, ==, "DIMM 2A");
      g_assert_cmpstr (twice->board->slots[twice->board->order[3]].name, ==, "DIMM 3D");
    }
}

/* Slots clicked together, also some of them while the rest is open. */
static void
test_clicked (void)
{
  g_autoptr (LidJob) job = job_of (6);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) some = lid_job_teach (job, "channels:Q=DIMM 5+DIMM 2,...", &error);
  g_autoptr (LidJob) all
      = lid_job_teach (job, "channels:DIMM 5+DIMM 2,DIMM 1,DIMM 6+DIMM 3+DIMM 4", &error);
  int slot;

  g_assert_no_error (error);
  g_assert_false (some->board->channels_told);
  g_assert_cmpuint (some->board->n_channels, ==, 1);
  g_assert_true (all->board->channels_told);
  g_assert_cmpuint (all->board->n_channels, ==, 3);
  g_assert_cmpuint (all->board->channels[2].n_slots, ==, 3);
  slot = lid_board_find_slot (all->board, "DIMM 2");
  g_assert_cmpuint (all->board->slots[slot].position, ==, 2);
  g_assert_cmpstr (all->board->channels[all->board->slots[slot].channel].name, ==, "A");
  g_assert_null (lid_job_teach (job, "channels:DIMM 5+DIMM 2", &error));
  g_assert_nonnull (strstr (error->message, "DIMM 1"));
}

static guint
count (const LidPopulation *population)
{
  guint n = 0;

  for (guint i = 0; i < population->n_slots; i++)
    n += population->slots[i].module != NULL;
  return n;
}

/* Every real machine whose channels are not told: what is offered fits it, and undoes no slot.
 * Machines: linuxhw/DMI, CC-BY-4.0 (SOURCES.md beside them). */
static void
test_real_machines (void)
{
  g_autofree char *folder = support_shared ("data/machines");
  g_autoptr (GDir) dir = folder != NULL ? g_dir_open (folder, 0, NULL) : NULL;
  guint n = 0, n_offered = 0, n_patterns = 0;

  if (dir == NULL)
    {
      g_test_skip ("the shared inventories are not here");
      return;
    }
  for (const char *name; (name = g_dir_read_name (dir)) != NULL;)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_auto (LidOpened) opened = { NULL, NULL, NULL };
      g_autoptr (GPtrArray) offers = NULL;
      const LidBoard *board;

      if (!lid_job_open (path, NULL, NULL, &opened, NULL) || opened.job->board->n_slots == 0)
        continue;
      board = opened.job->board;
      if (board->channels_told || !board->derived)
        continue;
      offers = lid_job_teach_offers (opened.job);
      n++;
      n_offered += offers->len > 0;
      n_patterns += offers->len;
      if (offers->len == 0)
        g_test_message ("%s: %u slots, %u sockets%s: nothing offered", name, board->n_slots,
                        board->n_sockets, board->sockets_told ? "" : " not told");
      for (guint i = 0; i < offers->len; i++)
        {
          g_autoptr (GError) error = NULL;
          g_autoptr (LidJob) taught = lid_job_teach (opened.job, offers->pdata[i], &error);

          g_assert_no_error (error);
          g_assert_cmpuint (taught->board->n_slots, ==, board->n_slots);
          g_assert_cmpuint (count (taught->as_found), ==, count (opened.job->as_found));
          if (g_getenv ("LID_SHOW"))
            g_test_message ("%s: %s -> %u sockets, %u channels", name, (char *)offers->pdata[i],
                            taught->board->n_sockets, taught->board->n_channels);
        }
    }
  g_test_message ("%u machines whose channels are not told, %u with offers, %u patterns", n,
                  n_offered, n_patterns);
  g_assert_cmpuint (n, >, 20);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job-teach/teach", test_teach);
  g_test_add_func ("/job-teach/offers", test_offers);
  g_test_add_func ("/job-teach/refused", test_refused);
  g_test_add_func ("/job-teach/found-again", test_found_again);
  g_test_add_func ("/job-teach/letters", test_letters);
  g_test_add_func ("/job-teach/both", test_both);
  g_test_add_func ("/job-teach/clicked", test_clicked);
  g_test_add_func ("/job-teach/real-machines", test_real_machines);
  return g_test_run ();
}
