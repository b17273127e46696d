/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Board and modules of an example. The files are compiled in and each is tested, so what is wrong
 * in one is a programmer's mistake and ends the program. */
#include "help/example-private.h"

#include "board/board-file.h"
#include "facts/label.h"
#include "facts/module-json.h"

static JsonObject *
lay_channel (const char *socket, guint channel, guint n_slots)
{
  JsonObject *object = json_object_new ();
  JsonArray *slots = json_array_new ();
  char name[2] = { (char)('A' + channel), 0 };

  for (guint i = 0; i < n_slots; i++)
    {
      JsonObject *slot = json_object_new ();
      g_autofree char *id = g_strdup_printf ("%s%s%u", socket, name, i + 1);

      json_object_set_string_member (slot, "id", id);
      json_array_add_object_element (slots, slot);
    }
  json_object_set_string_member (object, "name", name);
  json_object_set_array_member (object, "slots", slots);
  return object;
}

static JsonObject *
lay_socket (JsonObject *layout, guint socket, gboolean alone)
{
  guint n_controllers = (guint)json_object_get_int_member_with_default (layout, "controllers", 1);
  JsonArray *slots = json_object_get_array_member (layout, "slots");
  guint n = json_array_get_length (slots);
  JsonObject *object = json_object_new ();
  JsonArray *controllers = json_array_new ();
  g_autofree char *name = g_strdup_printf ("%u", socket + 1);
  g_autofree char *prefix = alone ? g_strdup ("") : g_strdup_printf ("%s-", name);

  for (guint k = 0; k < n_controllers; k++)
    {
      JsonObject *controller = json_object_new ();
      JsonArray *channels = json_array_new ();

      for (guint i = k * n / n_controllers; i < (k + 1) * n / n_controllers; i++)
        json_array_add_object_element (
            channels, lay_channel (prefix, i, (guint)json_array_get_int_element (slots, i)));
      json_object_set_array_member (controller, "channels", channels);
      json_array_add_object_element (controllers, controller);
    }
  json_object_set_string_member (object, "name", name);
  json_object_set_array_member (object, "controllers", controllers);
  return object;
}

/**
 * lid_example_board_new:
 * @file: the example
 *
 * Returns: (transfer full): its board: slots of channels by "layout", the rest by "board"
 */
LidBoard *
lid_example_board_new (JsonObject *file)
{
  JsonObject *layout = json_object_get_object_member (file, "layout");
  guint n_sockets = (guint)json_object_get_int_member_with_default (layout, "sockets", 1);
  g_autoptr (JsonNode) node = json_node_new (JSON_NODE_OBJECT);
  g_autoptr (GError) error = NULL;
  JsonObject *object = json_object_new ();
  JsonArray *sockets = json_array_new ();
  LidBoard *board;

  for (guint s = 0; s < n_sockets; s++)
    json_array_add_object_element (sockets, lay_socket (layout, s, n_sockets == 1));
  json_object_set_int_member (object, "format", LID_BOARD_FORMAT);
  json_object_set_string_member (object, "id", "example");
  json_object_set_int_member (object, "version", 1);
  json_object_set_string_member (object, "name", "Example");
  json_object_set_string_member (object, "source", "invented for the example");
  json_object_set_array_member (object, "sockets", sockets);
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
  if (board == NULL)
    g_error ("example: %s", error->message);
  board->derived = json_object_get_boolean_member_with_default (file, "derived", FALSE);
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
  if (!lid_label_parse (text, -1, &label, &fault, &error))
    g_error ("example: %s", error->message);
  return lid_label_facts_to_module (&label);
}

/* Facts told beside a label; null forgets one. */
static void
tell_facts (LidModule *module, const LidJsonAt *at)
{
  for (guint fact = 0; fact < LID_N_FACTS; fact++)
    {
      LidJsonAt value = lid_json_member (at, lid_fact_to_text (fact));
      LidBasis basis = LID_BASIS_NONE;
      gint32 read = 0;

      if (!lid_json_there (&value))
        continue;
      if (!lid_json_is_null (&value)
          && lid_module_json_get_fact (&value, fact, lid_module_generation (module), &read, NULL))
        basis = LID_BASIS_TOLD;
      lid_module_set (module, fact, read, basis);
    }
}

/**
 * lid_example_board_module:
 * @file: the example
 * @name: a module of its "modules"
 *
 * Returns: (transfer full): the module
 */
LidModule *
lid_example_board_module (JsonObject *file, const char *name)
{
  JsonObject *modules = json_object_get_object_member (file, "modules"), *told;
  JsonNode *node = json_object_get_member (modules, name);
  LidModule *module;
  LidJsonAt at;

  if (node == NULL)
    g_error ("example: there is no module %s", name);
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

guint
lid_example_board_slot (const LidBoard *board, const char *name)
{
  int slot = lid_board_find_slot (board, name);

  if (slot == LID_NOWHERE)
    g_error ("example: there is no slot %s", name);
  return (guint)slot;
}
