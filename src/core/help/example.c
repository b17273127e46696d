/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "help/example.h"

#include "base/json-parse.h"
#include "base/json-text.h"
#include "help/example-private.h"
#include "help/rule-examples.h"

#include <string.h>

static void
put_all (JsonObject *file, JsonObject *put, const LidBoard *board, LidPopulation *population)
{
  g_autoptr (GList) members = json_object_get_members (put);

  for (GList *l = members; l != NULL; l = l->next)
    {
      g_autoptr (LidModule) module = lid_example_board_module (file, l->data);
      g_auto (GStrv) names = g_strsplit (json_object_get_string_member (put, l->data), " ", -1);

      for (guint i = 0; names[i] != NULL; i++)
        lid_population_put (population, lid_example_board_slot (board, names[i]), module);
    }
}

/**
 * lid_example_populate:
 * @file: the example: its modules
 * @one: where they sit, and the settings
 * @board: the example's board
 *
 * Returns: (transfer full): the population
 */
LidPopulation *
lid_example_populate (JsonObject *file, JsonObject *one, const LidBoard *board)
{
  LidPopulation *population = lid_population_new (board);
  const char *not_seen = json_object_get_string_member_with_default (one, "not_seen", NULL);
  gint64 absent = json_object_get_int_member_with_default (one, "absent", 0);
  gint64 model = json_object_get_int_member_with_default (one, "model", 0);
  gboolean found;

  if (json_object_has_member (one, "put"))
    put_all (file, json_object_get_object_member (one, "put"), board, population);
  if (not_seen != NULL)
    population->slots[lid_example_board_slot (board, not_seen)].state = LID_SLOT_NOT_SEEN;
  if (absent > 0)
    population->processors[absent - 1].fitted = FALSE;
  for (guint i = 0; i < board->n_sockets && model > 0; i++)
    population->processors[i].model = (int)model - 1;
  population->firmware
      = g_strdup (json_object_get_string_member_with_default (one, "firmware", NULL));
  population->mode = lid_mode_from_text (
      json_object_get_string_member_with_default (one, "mode", "plain"), &found);
  population->spare_ranks = (guint)json_object_get_int_member_with_default (one, "spare_ranks", 0);
  population->mirrored_mib = json_object_get_int_member_with_default (one, "mirrored_mib", 0);
  population->numa_split = (guint)json_object_get_int_member_with_default (one, "numa", 0);
  return population;
}

static GPtrArray *
read_tray (JsonObject *file)
{
  GPtrArray *tray = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_module_unref);
  JsonArray *names
      = json_object_has_member (file, "tray") ? json_object_get_array_member (file, "tray") : NULL;

  for (guint i = 0; names != NULL && i < json_array_get_length (names); i++)
    g_ptr_array_add (tray,
                     lid_example_board_module (file, json_array_get_string_element (names, i)));
  return tray;
}

static JsonNode *
load (const LidRule *rule)
{
  g_autofree char *path = g_strdup_printf ("/org/lidleaf/rules/%s.json", rule->id);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes
      = g_resource_lookup_data (lid_rule_examples_get_resource (), path, 0, NULL);
  JsonNode *node;

  if (bytes == NULL)
    return NULL;
  node = lid_json_parse (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), &error);
  if (node == NULL)
    g_error ("%s: %s", path, error->message);
  return node;
}

/**
 * lid_example_new:
 * @rule: a rule
 *
 * Returns: (transfer full) (nullable): its example; NULL where none is compiled in
 */
LidExample *
lid_example_new (const LidRule *rule)
{
  g_autoptr (JsonNode) node = load (rule);
  JsonObject *file;
  LidExample *example;

  if (node == NULL)
    return NULL;
  file = json_node_get_object (node);
  example = g_new0 (LidExample, 1);
  example->rule = rule;
  example->board = lid_example_board_new (file);
  example->population = lid_example_populate (file, file, example->board);
  if (json_object_has_member (file, "as_found"))
    example->as_found = lid_example_populate (
        file, json_object_get_object_member (file, "as_found"), example->board);
  example->at_hand = read_tray (file);
  example->changes = lid_example_changes_new (file, example);
  if (json_object_has_member (file, "board"))
    {
      g_autoptr (JsonObject) bare = json_object_new ();
      g_autoptr (LidBoard) board = NULL;

      json_object_set_object_member (
          bare, "layout", json_object_ref (json_object_get_object_member (file, "layout")));
      board = lid_example_board_new (bare);
      example->definition = lid_json_text (json_object_get_member (file, "board"), FALSE);
      example->definition_words = lid_example_definition_words (example->board, board);
    }
  return example;
}

void
lid_example_free (LidExample *example)
{
  if (example == NULL)
    return;
  g_ptr_array_unref (example->changes);
  g_ptr_array_unref (example->at_hand);
  g_clear_pointer (&example->as_found, lid_population_free);
  lid_population_free (example->population);
  lid_board_unref (example->board);
  g_free (example->definition);
  g_free (example->definition_words);
  g_free (example);
}

/**
 * lid_example_assess:
 * @example: an example
 * @population: one of its board
 *
 * Returns: (transfer full): what the checker says of it
 */
LidAssessment *
lid_example_assess (const LidExample *example, const LidPopulation *population)
{
  const LidQuestion question = { example->board, population, example->as_found };

  return lid_assessment_new_at_hand (&question, example->at_hand);
}

/**
 * lid_example_finding:
 * @example: an example
 * @assessment: of one of its populations
 *
 * Returns: (nullable): the first finding of the example's own rule
 */
const LidFinding *
lid_example_finding (const LidExample *example, const LidAssessment *assessment)
{
  for (guint i = 0; i < assessment->findings->len; i++)
    if (((const LidFinding *)assessment->findings->pdata[i])->rule == example->rule)
      return assessment->findings->pdata[i];
  return NULL;
}
