/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "edits-sample.h"

#include "board/board-file.h"
#include "board/board-match.h"
#include "facts/label.h"
#include "locators/locators.h"

/* A board of platforms/. */
LidBoard *
edits_sample_board (const char *id)
{
  g_autofree char *file = g_strconcat (id, ".json", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", file, NULL);
  g_autoptr (GError) error = NULL;
  LidBoard *board = lid_board_file_load (path, &error);

  g_assert_no_error (error);
  return board;
}

static LidModule *
module_of (const char *text, const char *part, const char *serial)
{
  g_autoptr (GError) error = NULL;
  LidModule *module;
  LidLabel label;

  lid_label_parse (text, -1, &label, NULL, &error);
  g_assert_no_error (error);
  module = lid_label_facts_to_module (&label);
  lid_module_set_text (&module->part, part);
  lid_module_set_text (&module->serial, serial);
  return module;
}

LidJob *
edits_sample_job (void)
{
  g_autoptr (LidBoard) board = edits_sample_board ("tern-w4");
  LidJob *job = lid_job_new (board);

  lid_job_set_text (&job->title, "Chart room, desk 3");
  job->as_found = lid_population_new (board);
  for (guint i = 0; i < 2; i++)
    {
      LidModule *module = lid_job_add_module (
          job, module_of ("16GB 2Rx8 PC4-3200AA-RE2-12", "TP-16R-32", i == 0 ? "S101" : "S102"));

      lid_population_put (job->as_found, 2 * i, module);
      job->as_found->slots[2 * i].configured = 3 * 2933;
    }
  return job;
}

LidJob *
edits_sample_untold (void)
{
  LidInventory *inventory = lid_inventory_new ("gauge", "smbios");
  g_autoptr (LidMatch) match = NULL;
  g_autoptr (GError) error = NULL;
  LidJob *job;

  lid_inventory_add_processor (inventory, "CPU", TRUE);
  for (guint i = 1; i <= 8; i++)
    {
      LidDevice *device = lid_inventory_add_device (inventory);

      g_free (device->locator);
      device->locator = g_strdup_printf ("DIMM %u", i);
      device->handle = (gint32)(0x1100 + i);
      if (i % 2 == 0)
        continue;
      device->state = LID_SLOT_FILLED;
      device->capacity_mib = 16384;
      device->module = module_of ("16GB 2Rx8 PC4-3200AA-RE2-12", "TP-16R-32", NULL);
    }
  inventory->product = g_strdup ("Gauge");
  lid_locators_place (inventory);
  match = lid_match_inventory (inventory, NULL, &error);
  g_assert_no_error (error);
  job = lid_job_from_inventory (inventory, match);
  lid_inventory_free (inventory);
  return job;
}

LidEdits *
edits_sample_tern (void)
{
  return lid_edits_new (edits_sample_job ());
}

/* The id of the module in a slot, NULL when it is empty. */
const char *
edits_sample_id (const LidEdits *edits, LidOf of, guint slot)
{
  const LidPopulation *population = lid_edits_population (edits, of);

  return population != NULL && population->slots[slot].module != NULL
             ? population->slots[slot].module->id
             : NULL;
}
