/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/job-parts.h"

static gboolean
read_processors (const LidJob *job, LidPopulation *population, const LidJsonAt *at, GError **error)
{
  LidJsonAt list = lid_json_member (at, "processors");
  guint length;

  if (lid_json_is_null (&list))
    return TRUE;
  if (!lid_json_get_length (&list, LID_BOARD_MAX_SOCKETS, &length, error))
    return FALSE;
  for (guint i = 0; i < length && i < population->n_sockets; i++)
    {
      LidJsonAt element = lid_json_element (&list, i);
      LidJsonAt fitted = lid_json_member (&element, "fitted");
      LidJsonAt model = lid_json_member (&element, "model");
      const char *id;

      if (!lid_json_get_bool (&fitted, &population->processors[i].fitted, error))
        return FALSE;
      population->processors[i].model = LID_NOWHERE;
      if (lid_json_is_null (&model))
        continue;
      if (!lid_json_get_text (&model, &id, error))
        return FALSE;
      for (guint m = 0; m < job->board->n_processors; m++)
        if (g_strcmp0 (job->board->processors[m].id, id) == 0)
          population->processors[i].model = (int)m;
      if (population->processors[i].model == LID_NOWHERE)
        return lid_json_fail (&model, error, "the board has no processor “%.60s”", id);
    }
  return TRUE;
}

static gboolean
read_settings (const LidJob *job, LidPopulation *population, const LidJsonAt *at, GError **error)
{
  LidJsonAt firmware = lid_json_member (at, "firmware"), mode = lid_json_member (at, "mode");
  LidGeneration generation = LID_GENERATION_UNKNOWN;
  gboolean found = TRUE;
  const char *text;
  const struct
  {
    const char *name;
    gint64 most;
  } numbers[] = {
    { "spare_ranks", 64 }, { "mirrored_mib", G_GINT64_CONSTANT (1) << 40 },
    { "numa_split", 64 },  { "setup_limit_mts", LID_RATE_MAX_MTS },
    { "setup_mv", 5000 },
  };
  gint64 values[G_N_ELEMENTS (numbers)] = { 0 };

  if (!lid_json_is_null (&firmware))
    {
      if (!lid_json_get_text (&firmware, &text, error))
        return FALSE;
      population->firmware = g_strdup (text);
    }
  if (!lid_json_is_null (&mode))
    {
      if (!lid_json_get_text (&mode, &text, error))
        return FALSE;
      population->mode = lid_mode_from_text (text, &found);
      if (!found)
        return lid_json_fail (&mode, error, "“%.40s” is no memory mode this format knows", text);
    }
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      LidJsonAt member = lid_json_member (at, numbers[i].name);
      if (!lid_json_is_null (&member)
          && !lid_json_get_int (&member, 0, numbers[i].most, &values[i], error))
        return FALSE;
    }
  for (guint g = 1; g < LID_N_GENERATIONS; g++)
    if (job->board->generations == 1u << g)
      generation = g;
  population->spare_ranks = (guint)values[0];
  population->mirrored_mib = values[1];
  population->numa_split = (guint)values[2];
  population->setup_limit = lid_rate_snap (generation, (guint)values[3]);
  population->setup_mv = (guint)values[4];
  return TRUE;
}

static gboolean
is_state (const LidJsonAt *at, LidSlotState state)
{
  const char *text;

  return !lid_json_is_null (at) && lid_json_get_text (at, &text, NULL)
         && g_strcmp0 (text, lid_slot_state_to_text (state)) == 0;
}

/* Whether a module is persistent is a fact of the module, and one truth for drawing, rules and
 * figures. “filled” says that something sits there, so it is no contradiction; “persistent” is one
 * where the module is not. */
static gboolean
settle_persistence (LidFitting *fitting, const LidJsonAt *state, GError **error)
{
  if (fitting->state == LID_SLOT_PERSISTENT && !fitting->module->persistent)
    return lid_json_fail (state, error,
                          "the slot is “persistent”, its module “%.60s” is not: make the state "
                          "“filled”, or “persistent” of the module true",
                          fitting->module->id);
  if (fitting->state == LID_SLOT_FILLED && fitting->module->persistent)
    fitting->state = LID_SLOT_PERSISTENT;
  return TRUE;
}

static gboolean
read_slot (const LidJob *job, LidPopulation *population, const LidJsonAt *at, GError **error)
{
  LidJsonAt slot_at = lid_json_member (at, "slot"), module_at = lid_json_member (at, "module");
  LidJsonAt state_at = lid_json_member (at, "state");
  LidJsonAt rate_at = lid_json_member (at, "configured_mts");
  const char *slot_id, *module_id, *state_text;
  gboolean found = TRUE;
  gint64 mts = 0;
  LidModule *module;
  int slot;

  if (!lid_json_get_text (&slot_at, &slot_id, error))
    return FALSE;
  slot = lid_board_find_slot (job->board, slot_id);
  if (slot == LID_NOWHERE)
    return lid_json_fail (&slot_at, error, "the board has no slot “%.60s”", slot_id);
  if (lid_json_is_null (&module_at))
    {
      /* Memory of the board is no module of the job: it is there without an id. */
      if (job->board->slots[slot].soldered == NULL || !is_state (&state_at, LID_SLOT_SOLDERED))
        lid_population_take (population, (guint)slot);
      return TRUE;
    }
  if (!lid_json_get_text (&module_at, &module_id, error))
    return FALSE;
  module = lid_job_find_module (job, module_id);
  if (module == NULL)
    return lid_json_fail (&module_at, error, "the job has no module “%.60s”", module_id);
  for (guint i = 0; i < population->n_slots; i++)
    if (population->slots[i].module == module && i != (guint)slot)
      return lid_json_fail (&module_at, error, "module “%.60s” sits in two slots", module_id);
  lid_population_put (population, (guint)slot, module);
  if (!lid_json_is_null (&state_at))
    {
      if (!lid_json_get_text (&state_at, &state_text, error))
        return FALSE;
      population->slots[slot].state = lid_slot_state_from_text (state_text, &found);
      if (!found || population->slots[slot].state == LID_SLOT_EMPTY)
        return lid_json_fail (&state_at, error, "“%.40s” is no state of a filled slot", state_text);
      if (!settle_persistence (&population->slots[slot], &state_at, error))
        return FALSE;
    }
  if (!lid_json_is_null (&rate_at)
      && !lid_json_get_int (&rate_at, 0, LID_RATE_MAX_MTS, &mts, error))
    return FALSE;
  population->slots[slot].configured = lid_rate_snap (lid_module_generation (module), (guint)mts);
  return TRUE;
}

/**
 * lid_job_parts_read_population:
 * @job: whose board and modules it refers to
 * @at: the population's object
 * @error: names the place
 *
 * Returns: (transfer full) (nullable): the population
 */
LidPopulation *
lid_job_parts_read_population (const LidJob *job, const LidJsonAt *at, GError **error)
{
  g_autoptr (LidPopulation) population = lid_population_new (job->board);
  LidJsonAt slots = lid_json_member (at, "slots");
  guint length;

  if (!lid_json_need_object (at, error) || !read_processors (job, population, at, error)
      || !read_settings (job, population, at, error)
      || !lid_json_get_length (&slots, LID_BOARD_MAX_SLOTS, &length, error))
    return NULL;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt element = lid_json_element (&slots, i);
      if (!read_slot (job, population, &element, error))
        return NULL;
    }
  return g_steal_pointer (&population);
}

static void
write_processors (const LidJob *job, const LidPopulation *population, JsonBuilder *builder)
{
  json_builder_set_member_name (builder, "processors");
  json_builder_begin_array (builder);
  for (guint i = 0; i < population->n_sockets; i++)
    {
      int model = population->processors[i].model;

      json_builder_begin_object (builder);
      json_builder_set_member_name (builder, "fitted");
      json_builder_add_boolean_value (builder, population->processors[i].fitted);
      json_builder_set_member_name (builder, "model");
      if (model == LID_NOWHERE || (guint)model >= job->board->n_processors)
        json_builder_add_null_value (builder);
      else
        json_builder_add_string_value (builder, job->board->processors[model].id);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
}

static void
write_slots (const LidJob *job, const LidPopulation *population, JsonBuilder *builder)
{
  json_builder_set_member_name (builder, "slots");
  json_builder_begin_array (builder);
  for (guint i = 0; i < population->n_slots; i++)
    {
      const LidFitting *fitting = &population->slots[i];

      json_builder_begin_object (builder);
      json_builder_set_member_name (builder, "slot");
      json_builder_add_string_value (builder, job->board->slots[i].id);
      json_builder_set_member_name (builder, "module");
      if (fitting->module == NULL)
        json_builder_add_null_value (builder);
      else
        json_builder_add_string_value (builder, fitting->module->id);
      json_builder_set_member_name (builder, "state");
      json_builder_add_string_value (builder, lid_slot_state_to_text (fitting->state));
      json_builder_set_member_name (builder, "configured_mts");
      if (fitting->configured == LID_RATE_UNKNOWN)
        json_builder_add_null_value (builder);
      else
        json_builder_add_int_value (builder, lid_rate_mts (fitting->configured));
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
}

static void
add_number_or_null (JsonBuilder *builder, const char *name, gint64 value)
{
  json_builder_set_member_name (builder, name);
  if (value == 0)
    json_builder_add_null_value (builder);
  else
    json_builder_add_int_value (builder, value);
}

/**
 * lid_job_parts_write_population:
 * @job: whose board and modules it refers to
 * @population: a population of that board
 *
 * Returns: (transfer full): the object lid_job_parts_read_population() reads
 */
JsonNode *
lid_job_parts_write_population (const LidJob *job, const LidPopulation *population)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();

  json_builder_begin_object (builder);
  write_processors (job, population, builder);
  json_builder_set_member_name (builder, "firmware");
  if (population->firmware == NULL)
    json_builder_add_null_value (builder);
  else
    json_builder_add_string_value (builder, population->firmware);
  json_builder_set_member_name (builder, "mode");
  json_builder_add_string_value (builder, lid_mode_to_text (population->mode));
  add_number_or_null (builder, "spare_ranks", population->spare_ranks);
  add_number_or_null (builder, "mirrored_mib", population->mirrored_mib);
  add_number_or_null (builder, "numa_split", population->numa_split);
  add_number_or_null (builder, "setup_limit_mts", lid_rate_mts (population->setup_limit));
  add_number_or_null (builder, "setup_mv", population->setup_mv);
  write_slots (job, population, builder);
  json_builder_end_object (builder);
  return json_builder_get_root (builder);
}
