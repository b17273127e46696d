/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-newer.c — a job keeps the board it was made with; when the definition has moved on, the
 * newer one is offered with its differences and never taken silently (product.md 4). */
#include "board/board-newer.h"

#include "board/board-file.h"
#include "board/board-list.h"

static JsonObject *
object_of (const LidBoard *board, JsonNode **node)
{
  *node = lid_board_file_to_node (board);
  return json_node_get_object (*node);
}

static gboolean
same_member (JsonObject *a, JsonObject *b, const char *name)
{
  JsonNode *left = json_object_get_member (a, name), *right = json_object_get_member (b, name);
  g_autofree char *left_hash = NULL, *right_hash = NULL;

  if (left == NULL || right == NULL)
    return left == right;
  left_hash = lid_board_file_hash (left);
  right_hash = lid_board_file_hash (right);
  return g_str_equal (left_hash, right_hash);
}

static void
add_differing (GPtrArray *names, JsonObject *a, JsonObject *b, gboolean only_missing)
{
  JsonObjectIter iter;
  const char *name;
  JsonNode *member;

  json_object_iter_init (&iter, a);
  while (json_object_iter_next (&iter, &name, &member))
    if (!g_str_equal (name, "version") && !(only_missing && json_object_has_member (b, name))
        && !same_member (a, b, name))
      g_ptr_array_add (names, g_strdup (name));
}

/**
 * lid_board_newer_find:
 * @embedded: the board of a job
 * @differences: (out) (transfer full) (element-type utf8) (optional): the parts of the definition
 * that differ, by their words in the file
 *
 * Returns: (transfer full) (nullable): the definition of the same id that is on this machine, when
 * it is not older and not the same
 */
LidBoard *
lid_board_newer_find (const LidBoard *embedded, GPtrArray **differences)
{
  g_autoptr (LidBoard) known = NULL;
  g_autoptr (JsonNode) old_node = NULL, new_node = NULL;
  JsonObject *old, *fresh;

  if (differences != NULL)
    *differences = NULL;
  if (embedded->derived)
    return NULL;
  known = lid_board_list_load (embedded->id, NULL);
  if (known == NULL || known->version < embedded->version
      || g_strcmp0 (known->hash, embedded->hash) == 0)
    return NULL;
  if (differences != NULL)
    {
      old = object_of (embedded, &old_node);
      fresh = object_of (known, &new_node);
      *differences = g_ptr_array_new_with_free_func (g_free);
      add_differing (*differences, old, fresh, FALSE);
      add_differing (*differences, fresh, old, TRUE);
    }
  return g_steal_pointer (&known);
}
