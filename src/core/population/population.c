/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "population/population.h"

static const char *const modes[LID_N_MODES] = {
  [LID_MODE_PLAIN] = "plain",
  [LID_MODE_MIRRORED] = "mirrored",
  [LID_MODE_PARTLY_MIRRORED] = "partly-mirrored",
  [LID_MODE_SPARED] = "spared",
  [LID_MODE_PAIRED] = "paired",
};

/**
 * lid_population_new:
 * @board: whose slots
 *
 * Returns: (transfer full): every processor fitted, soldered memory in its place, every real slot
 * empty, plain mode
 */
LidPopulation *
lid_population_new (const LidBoard *board)
{
  LidPopulation *population = g_new0 (LidPopulation, 1);

  population->n_slots = board->n_slots;
  population->slots = g_new0 (LidFitting, board->n_slots);
  population->n_sockets = board->n_sockets;
  population->processors = g_new0 (LidFittedProcessor, board->n_sockets);
  for (guint i = 0; i < board->n_sockets; i++)
    {
      population->processors[i].fitted = TRUE;
      population->processors[i].model = board->n_processors == 1 ? 0 : LID_NOWHERE;
    }
  for (guint i = 0; i < board->n_slots; i++)
    if (board->slots[i].soldered != NULL)
      {
        population->slots[i].module = lid_module_ref (board->slots[i].soldered);
        population->slots[i].state = LID_SLOT_SOLDERED;
      }
  return population;
}

/**
 * lid_population_copy:
 *
 * Returns: (transfer full): an equal value that shares the modules
 */
LidPopulation *
lid_population_copy (const LidPopulation *population)
{
  LidPopulation *copy = g_memdup2 (population, sizeof *population);

  copy->slots = g_memdup2 (population->slots, population->n_slots * sizeof *copy->slots);
  for (guint i = 0; i < copy->n_slots; i++)
    if (copy->slots[i].module != NULL)
      lid_module_ref (copy->slots[i].module);
  copy->processors
      = g_memdup2 (population->processors, population->n_sockets * sizeof *copy->processors);
  copy->firmware = g_strdup (population->firmware);
  return copy;
}

void
lid_population_free (LidPopulation *population)
{
  if (population == NULL)
    return;
  for (guint i = 0; i < population->n_slots; i++)
    lid_module_unref (population->slots[i].module);
  g_free (population->slots);
  g_free (population->processors);
  g_free (population->firmware);
  g_free (population);
}

/**
 * lid_population_put:
 * @population: a population
 * @slot: a slot of its board
 * @module: (transfer none): goes in; what sat there is taken out first
 */
void
lid_population_put (LidPopulation *population, guint slot, LidModule *module)
{
  g_return_if_fail (slot < population->n_slots && module != NULL);
  lid_module_ref (module);
  lid_module_unref (population->slots[slot].module);
  population->slots[slot].module = module;
  population->slots[slot].state = module->persistent ? LID_SLOT_PERSISTENT : LID_SLOT_FILLED;
  population->slots[slot].configured = LID_RATE_UNKNOWN;
}

/**
 * lid_population_take:
 * @population: a population
 * @slot: the slot to empty
 */
void
lid_population_take (LidPopulation *population, guint slot)
{
  g_return_if_fail (slot < population->n_slots);
  lid_module_unref (population->slots[slot].module);
  population->slots[slot] = (LidFitting){ NULL, LID_SLOT_EMPTY, LID_RATE_UNKNOWN };
}

/**
 * lid_population_equal:
 *
 * Returns: whether the same modules sit in the same slots under the same settings
 */
gboolean
lid_population_equal (const LidPopulation *a, const LidPopulation *b)
{
  if (a->n_slots != b->n_slots || a->n_sockets != b->n_sockets || a->mode != b->mode
      || a->spare_ranks != b->spare_ranks || a->mirrored_mib != b->mirrored_mib
      || a->numa_split != b->numa_split || a->setup_limit != b->setup_limit
      || a->setup_mv != b->setup_mv || g_strcmp0 (a->firmware, b->firmware) != 0)
    return FALSE;
  for (guint i = 0; i < a->n_slots; i++)
    if (a->slots[i].module != b->slots[i].module || a->slots[i].state != b->slots[i].state)
      return FALSE;
  for (guint i = 0; i < a->n_sockets; i++)
    if (a->processors[i].fitted != b->processors[i].fitted
        || a->processors[i].model != b->processors[i].model)
      return FALSE;
  return TRUE;
}

/**
 * lid_population_shows:
 *
 * Returns: whether @slot holds a module that is shown with a size
 */
gboolean
lid_population_shows (const LidPopulation *population, guint slot)
{
  const LidFitting *fitting = &population->slots[slot];

  return fitting->module != NULL && fitting->state != LID_SLOT_NOT_SEEN
         && lid_module_capacity (fitting->module) > 0;
}

/**
 * lid_population_is_evidence:
 * @population: what is judged
 * @as_found: (nullable): what a running machine told
 *
 * Nothing ran without any module: an empty list is no evidence.
 *
 * Returns: whether @population is the one found running
 */
gboolean
lid_population_is_evidence (const LidPopulation *population, const LidPopulation *as_found)
{
  return as_found != NULL && (as_found == population || lid_population_equal (as_found, population))
         && lid_population_n_modules (as_found) > 0;
}

guint
lid_population_n_modules (const LidPopulation *population)
{
  guint n = 0;

  for (guint i = 0; i < population->n_slots; i++)
    n += population->slots[i].module != NULL;
  return n;
}

const char *
lid_mode_to_text (LidMode mode)
{
  g_return_val_if_fail ((guint)mode < LID_N_MODES, NULL);
  return modes[mode];
}

LidMode
lid_mode_from_text (const char *text, gboolean *found)
{
  for (guint i = 0; i < LID_N_MODES; i++)
    if (g_strcmp0 (text, modes[i]) == 0)
      {
        *found = TRUE;
        return i;
      }
  *found = FALSE;
  return LID_MODE_PLAIN;
}
