/* SPDX-License-Identifier: GPL-3.0-or-later */
/* job-intake.c — from an inventory to a job: what was read becomes "as found". */
#include "job/job.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* "-" or "/srv/in/gauge-2.txt" to something a person recognises on the sheet. */
static char *
title_of (const char *source)
{
  g_autofree char *base = NULL;
  char *dot;

  if (source == NULL || strcmp (source, "-") == 0)
    return NULL;
  base = g_path_get_basename (source);
  dot = strrchr (base, '.');
  if (dot != NULL && dot != base)
    *dot = 0;
  return g_steal_pointer (&base);
}

/* Processors are told in the order of their sockets; type 4 names are never joined by number
 * (shared/facts/locators.md 2). An inventory that tells of none says nothing against any. */
static void
fit_processors (LidPopulation *population, const LidInventory *inventory)
{
  const GPtrArray *told = inventory->processors;

  if (lid_inventory_n_fitted_processors (inventory) == 0)
    return;
  for (guint i = 0; i < population->n_sockets; i++)
    population->processors[i].fitted
        = i < told->len && ((const LidProcessor *)told->pdata[i])->fitted;
}

/* A socket whose modules the machine shows has its processor, whatever type 4 says. */
static void
fit_processors_of_modules (LidPopulation *population, const LidBoard *board)
{
  for (guint i = 0; i < population->n_slots; i++)
    if (population->slots[i].module != NULL && board->slots[i].socket != LID_NOWHERE)
      population->processors[board->slots[i].socket].fitted = TRUE;
}

/* An inventory tells less of soldered chips than the board does: what it leaves open is the board's
 * word, what it tells stands. A machine with other chips soldered in is another variant, of which
 * the board knows nothing. */
static void
add_board_facts (LidModule *module, const LidModule *soldered)
{
  static const LidFact marks[] = { LID_FACT_GENERATION, LID_FACT_CAPACITY };

  for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
    if (lid_module_knows (module, marks[i]) && lid_module_knows (soldered, marks[i])
        && module->value[marks[i]] != soldered->value[marks[i]])
      return;
  for (guint f = 0; f < LID_N_FACTS; f++)
    if (!lid_module_knows (module, f) && lid_module_knows (soldered, f))
      lid_module_set (module, f, soldered->value[f], soldered->basis[f]);
  if (module->part == NULL)
    lid_module_set_text (&module->part, soldered->part);
}

static void
fill_slot (LidJob *job, LidPopulation *population, const LidDevice *device, guint slot)
{
  const LidModule *soldered = job->board->slots[slot].soldered;
  LidModule *module;

  if (device->module == NULL)
    {
      lid_population_take (population, slot);
      return;
    }
  module = lid_job_add_module (job, lid_module_copy (device->module));
  if (soldered != NULL)
    add_board_facts (module, soldered);
  lid_population_put (population, slot, module);
  population->slots[slot].state = device->state;
  if (lid_inventory_rate_is_plausible (device->configured_mts))
    population->slots[slot].configured
        = lid_rate_snap (lid_module_generation (module), device->configured_mts);
}

/**
 * lid_job_from_inventory:
 * @inventory: what was read, its places set
 * @match: its board, from lid_match_inventory()
 *
 * Returns: (transfer full): a job whose "as found" is what was read; nothing planned
 */
LidJob *
lid_job_from_inventory (const LidInventory *inventory, const LidMatch *match)
{
  LidJob *job = lid_job_new (match->board);
  /* A file name may be of any encoding, a job is UTF-8. */
  g_autofree char *source
      = g_utf8_make_valid (inventory->source != NULL ? inventory->source : "-", -1);

  job->title = title_of (source);
  job->match = g_strdup (lid_match_kind_to_text (match->kind));
  job->as_found = lid_population_new (match->board);
  fit_processors (job->as_found, inventory);
  for (guint i = 0; i < inventory->devices->len; i++)
    if (match->slot_of_device[i] != LID_NOWHERE)
      fill_slot (job, job->as_found, inventory->devices->pdata[i], (guint)match->slot_of_device[i]);
  fit_processors_of_modules (job->as_found, match->board);
  if (inventory->firmware != NULL)
    job->as_found->firmware = g_strdup (inventory->firmware);
  lid_job_remember (job, "read", _ ("read from %s"), source);
  return job;
}
