/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "figures-case.h"

#include "base/json-parse.h"
#include "facts/label.h"
#include "facts/module-json.h"
#include "figures/room.h"
#include "figures/running-rate.h"

#include <string.h>

/* A name that is null stands for "not told" in a board file. */
static void
set_name (JsonObject *object, const char *name, gboolean told)
{
  if (told)
    json_object_set_string_member (object, "name", name);
  else
    json_object_set_null_member (object, "name");
}

static void
add_channel (JsonArray *channels, guint socket, guint channel, guint n_slots, gboolean told)
{
  JsonObject *object = json_object_new ();
  JsonArray *slots = json_array_new ();
  char name[2] = { (char)('A' + channel), 0 };

  for (guint i = 0; i < n_slots; i++)
    {
      JsonObject *slot = json_object_new ();
      g_autofree char *id = g_strdup_printf ("%u-%s%u", socket + 1, name, i + 1);

      json_object_set_string_member (slot, "id", id);
      json_array_add_object_element (slots, slot);
    }
  set_name (object, name, told);
  json_object_set_array_member (object, "slots", slots);
  json_array_add_object_element (channels, object);
}

static JsonArray *
lay_out (JsonObject *layout)
{
  guint n_sockets = (guint)json_object_get_int_member_with_default (layout, "sockets", 1);
  guint n_controllers = (guint)json_object_get_int_member_with_default (layout, "controllers", 1);
  JsonArray *slots = json_object_get_array_member (layout, "slots");
  guint n = json_array_get_length (slots);
  JsonArray *sockets = json_array_new ();

  for (guint s = 0; s < n_sockets; s++)
    {
      JsonObject *socket = json_object_new ();
      JsonArray *controllers = json_array_new ();
      g_autofree char *name = g_strdup_printf ("%u", s + 1);

      for (guint k = 0; k < n_controllers; k++)
        {
          JsonObject *controller = json_object_new ();
          JsonArray *channels = json_array_new ();

          for (guint i = k * n / n_controllers; i < (k + 1) * n / n_controllers; i++)
            add_channel (
                channels, s, i, (guint)json_array_get_int_element (slots, i),
                json_object_get_boolean_member_with_default (layout, "channels_told", TRUE));
          json_object_set_array_member (controller, "channels", channels);
          json_array_add_object_element (controllers, controller);
        }
      set_name (socket, name,
                s < json_object_get_int_member_with_default (layout, "sockets_told", n_sockets));
      json_object_set_array_member (socket, "controllers", controllers);
      json_array_add_object_element (sockets, socket);
    }
  return sockets;
}

static LidBoard *
load_board (JsonObject *file)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) node = json_node_new (JSON_NODE_OBJECT);
  JsonObject *object = json_object_new ();
  LidBoard *board;

  if (json_object_has_member (file, "platform"))
    {
      g_autofree char *name
          = g_strconcat (json_object_get_string_member (file, "platform"), ".json", NULL);
      g_autofree char *path = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", name, NULL);

      json_object_unref (object);
      board = lid_board_file_load (path, &error);
      g_assert_no_error (error);
      return board;
    }
  json_object_set_int_member (object, "format", LID_BOARD_FORMAT);
  json_object_set_string_member (object, "id", "case");
  json_object_set_int_member (object, "version", 1);
  json_object_set_string_member (object, "name", "Case");
  json_object_set_string_member (object, "source", "invented");
  json_object_set_array_member (object, "sockets",
                                lay_out (json_object_get_object_member (file, "layout")));
  if (json_object_has_member (file, "board"))
    {
      JsonObject *more = json_object_get_object_member (file, "board");
      g_autoptr (GList) members = json_object_get_members (more);

      for (GList *l = members; l != NULL; l = l->next)
        json_object_set_member (object, l->data,
                                json_node_copy (json_object_get_member (more, l->data)));
    }
  json_node_take_object (node, object);
  board = lid_board_file_from_node (node, &error);
  g_assert_no_error (error);
  return board;
}

static LidModule *
module_of_label (const char *text)
{
  g_autoptr (GError) error = NULL;
  LidLabelFault fault;
  LidLabel label;

  if (text == NULL)
    return lid_module_new ();
  lid_label_parse (text, -1, &label, &fault, &error);
  g_assert_no_error (error);
  return lid_label_facts_to_module (&label);
}

/* Facts told beside a label; null forgets one. */
static void
tell_facts (LidModule *module, const LidJsonAt *at)
{
  for (guint fact = 0; fact < LID_N_FACTS; fact++)
    {
      g_autoptr (GError) error = NULL;
      LidJsonAt value = lid_json_member (at, lid_fact_to_text (fact));
      gint32 read = 0;

      if (!lid_json_there (&value))
        continue;
      if (!lid_json_is_null (&value))
        lid_module_json_get_fact (&value, fact, lid_module_generation (module), &read, &error);
      g_assert_no_error (error);
      lid_module_set (module, fact, read,
                      lid_json_is_null (&value) ? LID_BASIS_NONE : LID_BASIS_TOLD);
    }
}

static LidModule *
module_named (JsonObject *file, const char *name)
{
  JsonObject *modules = json_object_get_object_member (file, "modules"), *told;
  JsonNode *node;
  LidModule *module;
  LidJsonAt at;

  if (!json_object_has_member (modules, name))
    g_error ("there is no module %s", name);
  node = json_object_get_member (modules, name);
  if (JSON_NODE_HOLDS_VALUE (node))
    return module_of_label (json_node_get_string (node));
  told = json_node_get_object (node);
  module = module_of_label (json_object_get_string_member_with_default (told, "label", NULL));
  lid_module_set_text (&module->part,
                       json_object_get_string_member_with_default (told, "part", NULL));
  module->persistent = json_object_get_boolean_member_with_default (told, "persistent", FALSE);
  at = lid_json_root (node);
  tell_facts (module, &at);
  return module;
}

static guint
slot_named (const LidBoard *board, const char *name)
{
  int slot = lid_board_find_slot (board, name);

  if (slot == LID_NOWHERE)
    g_error ("there is no slot %s", name);
  return (guint)slot;
}

static void
put_all (JsonObject *file, JsonObject *put, const LidBoard *board, LidPopulation *population)
{
  g_autoptr (GList) members = json_object_get_members (put);

  for (GList *l = members; l != NULL; l = l->next)
    {
      g_autoptr (LidModule) module = module_named (file, l->data);
      const char *where = json_object_get_string_member (put, l->data);
      g_auto (GStrv) names = g_strsplit (where, " ", -1);

      if (strcmp (where, "*") != 0)
        for (guint i = 0; names[i] != NULL; i++)
          lid_population_put (population, slot_named (board, names[i]), module);
      else
        for (guint i = 0; i < board->n_slots; i++)
          if (population->slots[i].module == NULL)
            lid_population_put (population, i, module);
    }
}

static int
processor_named (const LidBoard *board, const char *id)
{
  for (guint i = 0; i < board->n_processors; i++)
    if (g_strcmp0 (board->processors[i].id, id) == 0)
      return (int)i;
  g_error ("there is no processor %s", id);
}

static void
fit_processors (JsonObject *one, const LidBoard *board, LidPopulation *population)
{
  JsonArray *absent = json_object_has_member (one, "absent")
                          ? json_object_get_array_member (one, "absent")
                          : NULL;

  for (guint i = 0; absent != NULL && i < json_array_get_length (absent); i++)
    population->processors[json_array_get_int_element (absent, i) - 1].fitted = FALSE;
  for (guint i = 0; i < board->n_sockets && json_object_has_member (one, "processor"); i++)
    population->processors[i].model
        = processor_named (board, json_object_get_string_member (one, "processor"));
  for (guint i = 0; i < board->n_sockets && json_object_has_member (one, "processors"); i++)
    {
      g_autofree char *name = g_strdup_printf ("%u", i + 1);
      JsonObject *models = json_object_get_object_member (one, "processors");

      if (json_object_has_member (models, name))
        population->processors[i].model
            = processor_named (board, json_object_get_string_member (models, name));
    }
}

static void
set_mode (JsonObject *one, LidPopulation *population)
{
  const char *mode = json_object_get_string_member_with_default (one, "mode", "plain");
  gboolean found;

  population->mode = lid_mode_from_text (mode, &found);
  g_assert_true (found);
  population->spare_ranks = (guint)json_object_get_int_member_with_default (one, "spare_ranks", 0);
  population->mirrored_mib = json_object_get_int_member_with_default (one, "mirrored_mib", 0);
}

static LidPopulation *
populate (JsonObject *file, JsonObject *one, const LidBoard *board)
{
  LidPopulation *population = lid_population_new (board);
  const char *not_seen = json_object_get_string_member_with_default (one, "not_seen", "");
  g_auto (GStrv) names = g_strsplit (not_seen, " ", -1);

  if (json_object_has_member (one, "put"))
    put_all (file, json_object_get_object_member (one, "put"), board, population);
  for (guint i = 0; names[i] != NULL; i++)
    population->slots[slot_named (board, names[i])].state = LID_SLOT_NOT_SEEN;
  fit_processors (one, board, population);
  population->firmware
      = g_strdup (json_object_get_string_member_with_default (one, "firmware", NULL));
  population->setup_limit = lid_rate_snap (
      LID_GENERATION_UNKNOWN,
      (guint)json_object_get_int_member_with_default (one, "setup_mts", LID_RATE_UNKNOWN));
  population->setup_mv = (guint)json_object_get_int_member_with_default (one, "setup_mv", 0);
  population->numa_split = (guint)json_object_get_int_member_with_default (one, "numa", 0);
  set_mode (one, population);
  return population;
}

static LidPopulation *
find (JsonObject *file, JsonObject *one, const FiguresCase *c)
{
  JsonObject *object;
  LidPopulation *found;
  guint mts;

  if (!json_object_has_member (one, "as_found"))
    return NULL;
  object = json_object_get_object_member (one, "as_found");
  found = json_object_has_member (object, "put") ? populate (file, object, c->board)
                                                 : lid_population_copy (c->population);
  mts = (guint)json_object_get_int_member_with_default (object, "configured_mts", 0);
  for (guint i = 0; i < found->n_slots; i++)
    if (found->slots[i].module != NULL)
      found->slots[i].configured = lid_rate_snap (LID_GENERATION_UNKNOWN, mts);
  return found;
}

/**
 * figures_case_new:
 * @file: board and modules
 * @one: the case
 *
 * Returns: (transfer full): the case, computed as the assessment computes it
 */
FiguresCase *
figures_case_new (JsonObject *file, JsonObject *one)
{
  FiguresCase *c = g_new0 (FiguresCase, 1);
  const char *unusable = json_object_get_string_member_with_default (one, "unusable", "");
  g_auto (GStrv) names = g_strsplit (unusable, " ", -1);
  g_auto (GStrv) not_yet
      = g_strsplit (json_object_get_string_member_with_default (one, "unusable_yet", ""), " ", -1);

  c->board = load_board (file);
  c->population = populate (file, one, c->board);
  c->as_found = find (file, one, c);
  c->survey = lid_survey_new (c->board, c->population);
  c->unusable = g_new0 (guint8, c->board->n_slots);
  for (guint i = 0; names[i] != NULL; i++)
    c->unusable[slot_named (c->board, names[i])] = LID_ROOM_NEVER;
  for (guint i = 0; not_yet[i] != NULL; i++)
    c->unusable[slot_named (c->board, not_yet[i])] = LID_ROOM_NOT_YET;
  lid_figures_init (&c->figures, c->board);
  lid_running_rate_compute (c->survey, c->as_found, &c->figures);
  if (json_object_get_boolean_member_with_default (one, "stopped", FALSE))
    lid_figures_stop (c->survey, &c->figures);
  else
    lid_figures_compute (c->survey, c->unusable, &c->figures);
  c->room = lid_room_compute (c->survey, c->unusable);
  return c;
}

/**
 * figures_case_parse:
 * @format: JSON of a file whose members of a case stand beside those of the board
 *
 * Returns: (transfer full): the case
 */
FiguresCase *
figures_case_parse (const char *format, ...)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) node = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  node = lid_json_parse (text, strlen (text), &error);
  g_assert_no_error (error);
  return figures_case_new (json_node_get_object (node), json_node_get_object (node));
}

void
figures_case_free (FiguresCase *c)
{
  lid_figures_clear (&c->figures);
  lid_survey_free (c->survey);
  g_clear_pointer (&c->as_found, lid_population_free);
  lid_population_free (c->population);
  lid_board_unref (c->board);
  g_free (c->unusable);
  g_free (c);
}

/**
 * figures_case_channel:
 * @name: "1-A"
 *
 * Returns: the channel's index
 */
int
figures_case_channel (const FiguresCase *c, const char *name)
{
  g_autofree char *slot = g_strconcat (name, "1", NULL);

  return c->board->slots[slot_named (c->board, slot)].channel;
}
