/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The change that clears what an example shows: read from its file, done to its population. */
#include "help/example-private.h"

#include "facts/module-json.h"

#include <string.h>

/* The words of "clear": what they are about, and what stands beside. */
static const char *const words[LID_N_CHANGES] = {
  [LID_CHANGE_TAKE] = "take",         [LID_CHANGE_MOVE] = "move",
  [LID_CHANGE_SWAP] = "swap",         [LID_CHANGE_FIT] = "fit",
  [LID_CHANGE_EXCHANGE] = "exchange", [LID_CHANGE_SEAT] = "seat",
  [LID_CHANGE_TELL] = "tell",         [LID_CHANGE_PROCESSOR] = "processor",
  [LID_CHANGE_MODEL] = "model",       [LID_CHANGE_FIRMWARE] = "firmware",
  [LID_CHANGE_MODE] = "mode",         [LID_CHANGE_NUMA] = "numa",
  [LID_CHANGE_SPARE] = "spare_ranks", [LID_CHANGE_MIRRORED] = "mirrored_mib",
};

static void
free_change (gpointer data)
{
  LidExampleChange *change = data;

  g_clear_pointer (&change->module, lid_module_unref);
  g_clear_pointer (&change->with, lid_module_unref);
  g_free (change->word);
  g_free (change);
}

/* Who "tell" is about is the module as it sits in the population, by pointer. */
static void
read_tell (JsonObject *step, const LidExample *example, LidExampleChange *change)
{
  JsonNode *value = json_object_get_member (step, "value");
  LidJsonAt at = lid_json_root (value);
  gboolean found;
  gint32 read = 0;

  change->slot
      = lid_example_board_slot (example->board, json_object_get_string_member (step, "tell"));
  change->module = lid_module_ref (example->population->slots[change->slot].module);
  change->with = lid_module_copy (change->module);
  change->fact = lid_fact_from_text (json_object_get_string_member (step, "fact"), &found);
  if (!found
      || !lid_module_json_get_fact (&at, change->fact, lid_module_generation (change->with), &read,
                                    NULL))
    g_error ("example %s: no such fact or value", example->rule->id);
  lid_module_set (change->with, change->fact, read, LID_BASIS_TOLD);
}

static void
read_slots (JsonObject *file, JsonObject *step, const LidExample *example, LidExampleChange *change)
{
  const char *word = words[change->kind];
  const char *to = json_object_get_string_member_with_default (step, "to", NULL);
  const char *module = json_object_get_string_member_with_default (step, "module", NULL);

  change->slot
      = lid_example_board_slot (example->board, json_object_get_string_member (step, word));
  if (to != NULL)
    change->to = lid_example_board_slot (example->board, to);
  if (module != NULL)
    change->module = lid_example_board_module (file, module);
}

static LidExampleChange *
read_change (JsonObject *file, JsonObject *step, const LidExample *example)
{
  LidExampleChange *change = g_new0 (LidExampleChange, 1);
  gboolean found;

  while (change->kind < LID_N_CHANGES && !json_object_has_member (step, words[change->kind]))
    change->kind++;
  switch (change->kind)
    {
    case LID_CHANGE_TELL:
      read_tell (step, example, change);
      break;
    case LID_CHANGE_MODE:
      change->number = lid_mode_from_text (json_object_get_string_member (step, "mode"), &found);
      break;
    case LID_CHANGE_FIRMWARE:
      change->word = g_strdup (json_object_get_string_member (step, "firmware"));
      break;
    case LID_CHANGE_PROCESSOR:
    case LID_CHANGE_NUMA:
    case LID_CHANGE_SPARE:
    case LID_CHANGE_MIRRORED:
      change->number = json_object_get_int_member (step, words[change->kind]);
      break;
    case LID_CHANGE_MODEL:
      change->number = json_object_get_int_member (step, "model") - 1;
      break;
    case LID_N_CHANGES:
      g_error ("example %s: a change of no kind", example->rule->id);
    case LID_CHANGE_TAKE:
    case LID_CHANGE_MOVE:
    case LID_CHANGE_SWAP:
    case LID_CHANGE_FIT:
    case LID_CHANGE_EXCHANGE:
    case LID_CHANGE_SEAT:
    default:
      read_slots (file, step, example, change);
      break;
    }
  return change;
}

/**
 * lid_example_changes_new:
 * @file: the example
 * @example: the same, its population made
 *
 * Returns: (transfer full) (element-type LidExampleChange): its "clear"
 */
GPtrArray *
lid_example_changes_new (JsonObject *file, const LidExample *example)
{
  GPtrArray *changes = g_ptr_array_new_with_free_func (free_change);
  JsonArray *steps = json_object_has_member (file, "clear")
                         ? json_object_get_array_member (file, "clear")
                         : NULL;

  for (guint i = 0; steps != NULL && i < json_array_get_length (steps); i++)
    g_ptr_array_add (changes,
                     read_change (file, json_array_get_object_element (steps, i), example));
  return changes;
}

static void
move (LidPopulation *population, guint from, guint to, gboolean back)
{
  g_autoptr (LidModule) a = lid_module_ref (population->slots[from].module);
  g_autoptr (LidModule) b
      = back ? lid_module_ref (population->slots[to].module) : (LidModule *)NULL;

  lid_population_take (population, from);
  lid_population_put (population, to, a);
  if (b != NULL)
    lid_population_put (population, from, b);
}

static void
tell (LidPopulation *population, const LidExampleChange *change)
{
  for (guint i = 0; i < population->n_slots; i++)
    if (population->slots[i].module == change->module)
      lid_population_put (population, i, change->with);
}

static void
set (LidPopulation *population, const LidExampleChange *change)
{
  switch (change->kind)
    {
    case LID_CHANGE_PROCESSOR:
      population->processors[change->number - 1].fitted = TRUE;
      break;
    case LID_CHANGE_MODEL:
      for (guint i = 0; i < population->n_sockets; i++)
        population->processors[i].model = (int)change->number;
      break;
    case LID_CHANGE_FIRMWARE:
      g_free (population->firmware);
      population->firmware = g_strdup (change->word);
      break;
    case LID_CHANGE_MODE:
      population->mode = (LidMode)change->number;
      break;
    case LID_CHANGE_NUMA:
      population->numa_split = (guint)change->number;
      break;
    case LID_CHANGE_SPARE:
      population->spare_ranks = (guint)change->number;
      break;
    case LID_CHANGE_MIRRORED:
      population->mirrored_mib = change->number;
      break;
    case LID_CHANGE_TAKE:
    case LID_CHANGE_MOVE:
    case LID_CHANGE_SWAP:
    case LID_CHANGE_FIT:
    case LID_CHANGE_EXCHANGE:
    case LID_CHANGE_SEAT:
    case LID_CHANGE_TELL:
    case LID_N_CHANGES:
    default:
      g_assert_not_reached ();
    }
}

static void
change_one (LidPopulation *population, const LidExampleChange *change)
{
  switch (change->kind)
    {
    case LID_CHANGE_TAKE:
      lid_population_take (population, change->slot);
      return;
    case LID_CHANGE_MOVE:
    case LID_CHANGE_SWAP:
      move (population, change->slot, change->to, change->kind == LID_CHANGE_SWAP);
      return;
    case LID_CHANGE_FIT:
    case LID_CHANGE_EXCHANGE:
      lid_population_put (population, change->slot, change->module);
      return;
    case LID_CHANGE_SEAT:
      population->slots[change->slot].state = LID_SLOT_FILLED;
      return;
    case LID_CHANGE_TELL:
      tell (population, change);
      return;
    case LID_CHANGE_PROCESSOR:
    case LID_CHANGE_MODEL:
    case LID_CHANGE_FIRMWARE:
    case LID_CHANGE_MODE:
    case LID_CHANGE_NUMA:
    case LID_CHANGE_SPARE:
    case LID_CHANGE_MIRRORED:
    case LID_N_CHANGES:
    default:
      set (population, change);
    }
}

/**
 * lid_example_change:
 * @example: an example
 * @without: the index of a change to leave out; LID_NOWHERE: do all
 *
 * Returns: (transfer full): its population after the change
 */
LidPopulation *
lid_example_change (const LidExample *example, int without)
{
  LidPopulation *after = lid_population_copy (example->population);

  for (guint i = 0; i < example->changes->len; i++)
    if ((int)i != without)
      change_one (after, example->changes->pdata[i]);
  return after;
}
