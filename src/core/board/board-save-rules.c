/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-save-rules.c — takes, order, mixing, ranks, regions of a board as JSON. */
#include "board/board-file-private.h"
#include "board/board-words.h"
#include "facts/module-json.h"

/**
 * lid_board_save_set:
 * @object: gets the member
 * @name: its name
 * @bits: bits 1 << value; none: the member is left out
 * @to_text: the word of a value
 */
void
lid_board_save_set (JsonObject *object,
                    const char *name,
                    guint32 bits,
                    const char *(*to_text) (guint value))
{
  JsonArray *array;

  if (bits == 0)
    return;
  array = json_array_new ();
  for (guint i = 0; i < 32; i++)
    if (bits & (1u << i))
      json_array_add_string_element (array, to_text (i));
  json_object_set_array_member (object, name, array);
}

const char *
lid_board_save_kind (guint value)
{
  return lid_kind_to_text ((LidKind)value);
}

const char *
lid_board_save_generation (guint value)
{
  return lid_generation_to_text ((LidGeneration)value);
}

/**
 * lid_board_save_object:
 *
 * Puts @object there unless it is empty.
 */
void
lid_board_save_object (JsonObject *root, const char *name, JsonObject *object)
{
  if (json_object_get_size (object) > 0)
    json_object_set_object_member (root, name, object);
  else
    json_object_unref (object);
}

static void
write_sizes (const LidBoard *board, JsonObject *takes)
{
  JsonObject *sizes = json_object_new ();
  JsonArray *list = json_array_new ();

  for (guint i = 0; i < board->n_sizes; i++)
    json_array_add_int_element (list, board->sizes[i]);
  if (board->n_sizes > 0)
    {
      json_object_set_array_member (sizes, "mib", json_array_ref (list));
      json_object_set_string_member (sizes, "source", board->sizes_source);
    }
  json_array_unref (list);
  lid_board_save_object (takes, "sizes", sizes);
}

static void
write_takes (const LidBoard *board, JsonObject *root)
{
  JsonObject *takes = json_object_new ();

  lid_board_save_set (takes, "generations", board->generations, lid_board_save_generation);
  lid_board_save_set (takes, "kinds", board->kinds, lid_board_save_kind);
  if (board->form != LID_FORM_UNKNOWN)
    json_object_set_string_member (takes, "form", lid_form_to_text (board->form));
  if (board->voltages != 0)
    json_object_set_member (takes, "voltages_mv",
                            lid_module_json_value (LID_FACT_VOLTAGE, (gint32)board->voltages));
  if (board->max_height > 0)
    json_object_set_double_member (takes, "max_height_mm", board->max_height / 100.0);
  if (board->needs_ecc)
    json_object_set_string_member (takes, "ecc", "needed");
  if (board->persistent_taken)
    json_object_set_boolean_member (takes, "persistent", TRUE);
  write_sizes (board, takes);
  lid_board_save_object (root, "takes", takes);
  lid_board_airflow_save (board, root);
}

static JsonArray *
write_slots (const LidBoard *board, const guint *slots, guint n_slots)
{
  JsonArray *array = json_array_new ();

  for (guint i = 0; i < n_slots; i++)
    json_array_add_string_element (array, board->slots[slots[i]].id);
  return array;
}

static void
write_grade (JsonObject *object, LidGrade grade, LidStops stops)
{
  json_object_set_string_member (object, "grade", lid_board_words_grades[grade]);
  if (grade == LID_GRADE_STOPS && stops != LID_STOPS_NOTHING)
    json_object_set_string_member (object, "stops", lid_board_words_stops[stops]);
}

static void
write_mixing (const LidBoard *board, JsonObject *root)
{
  JsonArray *array = json_array_new ();

  for (guint i = 0; i < LID_N_MIXES; i++)
    {
      const LidMixRule *rule = &board->mixes[i];
      JsonObject *object;

      if (!rule->told)
        continue;
      object = json_object_new ();
      json_object_set_string_member (object, "mix", lid_board_words_mixes[i]);
      if (rule->allowed)
        json_object_set_boolean_member (object, "allowed", TRUE);
      else
        {
          json_object_set_string_member (object, "scope", lid_board_words_scopes[rule->scope]);
          json_object_set_int_member (object, "most", MAX (rule->most_classes, 1));
          write_grade (object, rule->grade, rule->stops);
        }
      json_object_set_string_member (object, "source", rule->source ? rule->source : "not told");
      json_array_add_object_element (array, object);
    }
  if (json_array_get_length (array) > 0)
    json_object_set_array_member (root, "mixing", array);
  else
    json_array_unref (array);
}

static void
write_order (const LidBoard *board, JsonObject *root)
{
  JsonObject *order = json_object_new (), *lone = json_object_new ();

  if (board->n_order > 0)
    {
      json_object_set_array_member (order, "slots",
                                    write_slots (board, board->order, board->n_order));
      write_grade (order, board->order_grade, LID_STOPS_NOTHING);
      if (board->order_source != NULL)
        json_object_set_string_member (order, "source", board->order_source);
    }
  lid_board_save_object (root, "order", order);
  if (board->n_lone > 0)
    {
      json_object_set_array_member (lone, "slots", write_slots (board, board->lone, board->n_lone));
      write_grade (lone, board->lone_grade, board->lone_stops);
      if (board->lone_source != NULL)
        json_object_set_string_member (lone, "source", board->lone_source);
    }
  lid_board_save_object (root, "lone", lone);
}

static void
write_balance (const LidBoard *board, JsonObject *root)
{
  JsonObject *larger = json_object_new (), *equal = json_object_new ();
  JsonObject *own = json_object_new ();

  if (board->larger_first_told)
    write_grade (larger, board->larger_first_grade, LID_STOPS_NOTHING);
  if (board->larger_first_source != NULL)
    json_object_set_string_member (larger, "source", board->larger_first_source);
  lid_board_save_object (root, "larger_first", larger);
  if (board->own_memory != LID_OWN_MEMORY_SILENT)
    json_object_set_string_member (root, "own_memory", lid_board_words_own[board->own_memory]);
  if (board->own_modules_source != NULL)
    {
      json_object_set_int_member (own, "least", board->own_modules);
      json_object_set_string_member (own, "source", board->own_modules_source);
    }
  lid_board_save_object (root, "own_modules", own);
  if (board->equal_sockets_told)
    write_grade (equal, board->equal_sockets_grade, LID_STOPS_NOTHING);
  lid_board_save_object (root, "equal_sockets", equal);
}

static void
write_numa_equal (const LidBoard *board, JsonObject *root)
{
  JsonObject *object = json_object_new ();
  JsonArray *nodes = json_array_new ();

  for (guint i = 1; i <= 16; i++)
    if (board->numa_equal & (1u << i))
      json_array_add_int_element (nodes, i);
  if (board->numa_equal != 0)
    {
      json_object_set_array_member (object, "nodes", json_array_ref (nodes));
      json_object_set_string_member (object, "source", board->numa_equal_source);
    }
  json_array_unref (nodes);
  lid_board_save_object (root, "numa_equal", object);
}

static void
write_regions (const LidBoard *board, JsonObject *root)
{
  JsonObject *interleave = json_object_new (), *efficiency = json_object_new ();
  JsonArray *numa = json_array_new ();

  for (guint i = 0; i < board->n_numa; i++)
    json_array_add_int_element (numa, board->numa[i]);
  if (board->region_model_told)
    {
      json_object_set_string_member (interleave, "model",
                                     lid_board_words_regions[board->region_model]);
      lid_board_file_ways_write (board, interleave);
      if (board->ways_source != NULL)
        json_object_set_string_member (interleave, "source", board->ways_source);
    }
  lid_board_save_object (root, "interleave", interleave);
  if (board->n_numa > 0)
    json_object_set_array_member (root, "numa", json_array_ref (numa));
  json_array_unref (numa);
  if (board->numa_source != NULL)
    json_object_set_string_member (root, "numa_source", board->numa_source);
  write_numa_equal (board, root);
  if (board->efficiency_source != NULL)
    {
      json_object_set_double_member (efficiency, "value", board->efficiency / 10000.0);
      json_object_set_string_member (efficiency, "source", board->efficiency_source);
    }
  lid_board_save_object (root, "efficiency", efficiency);
}

/**
 * lid_board_save_rules:
 * @board: a board
 * @root: the definition's root object; gets the rules
 */
void
lid_board_save_rules (const LidBoard *board, JsonObject *root)
{
  write_takes (board, root);
  write_mixing (board, root);
  write_order (board, root);
  write_balance (board, root);
  write_regions (board, root);
}
