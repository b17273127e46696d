/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-file.c — a board as a JSON file, format 1. The loader is strict: an unknown word, a slot
 * that is not there, a bench-proven limit that names nobody is refused with the place, because a
 * slip in a board becomes a wrong module in a machine. platforms/schema/board.schema.json says the
 * same for editors. */
#include "board/board-file.h"

#include "base/error.h"
#include "base/json-text.h"
#include "base/json-write.h"
#include "base/save.h"
#include "board/board-file-private.h"
#include "board/slot-names.h"

#include <gio/gio.h>
#include <string.h>

static gboolean
is_id (const char *text)
{
  return strlen (text) <= 64 && g_ascii_isalnum (text[0])
         && strspn (text, "abcdefghijklmnopqrstuvwxyz0123456789.-_") == strlen (text);
}

static gboolean
read_head (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = {
    "format",     "id",           "version",          "name",         "about",         "source",
    "derived",    "size_mm",      "sockets",          "takes",        "airflow",       "processors",
    "rates",      "rate_scope",   "rate_ceiling_mts", "ranks",        "mixing",        "order",
    "lone",       "larger_first", "own_memory",       "own_modules",  "interleave",    "numa",
    "numa_equal", "numa_source",  "efficiency",       "modes",        "equal_sockets", "limits",
    "firmware",   "$schema",      "spellings",        "fingerprints", "exclusions",    NULL
  };
  LidJsonAt format_at = lid_json_member (root, "format"), id = lid_json_member (root, "id");
  gint64 format;

  if (!lid_json_need_object (root, error)
      || !lid_json_get_int (&format_at, 1, G_MAXINT, &format, error))
    return FALSE;
  if (format > LID_BOARD_FORMAT && !root->lenient)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_NEWER,
                   "format: this board is of format %d, written for a later version of this "
                   "program; format %d is read here",
                   (int)format, LID_BOARD_FORMAT);
      return FALSE;
    }
  if (!lid_json_only (root, names, error)
      || !lid_board_json_text (root, "id", TRUE, &board->id, error)
      || !lid_board_json_uint (root, "version", TRUE, G_MAXINT, &board->version, error)
      || !lid_board_json_text (root, "name", TRUE, &board->name, error)
      || !lid_board_json_text (root, "about", FALSE, &board->about, error)
      || !lid_board_json_text (root, "source", TRUE, &board->source, error)
      || !lid_board_json_bool (root, "derived", &board->derived, error))
    return FALSE;
  if (!is_id (board->id))
    return lid_json_fail (
        &id, error, "must be at most 64 small letters, digits, dots, hyphens and underscores");
  return TRUE;
}

/* Canonical JSON: members sorted by name, no blanks. Depth is bounded by base/json-read.c. */
static void
append_canonical (LidJsonWriter *writer, const char *name, JsonNode *node)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    {
      JsonObject *object = json_node_get_object (node);
      GList *members = g_list_sort (json_object_get_members (object), (GCompareFunc)strcmp);

      lid_json_write_open (writer, name, '{');
      for (GList *l = members; l != NULL; l = l->next)
        append_canonical (writer, l->data, json_object_get_member (object, l->data));
      lid_json_write_close (writer, '}');
      g_list_free (members);
    }
  else if (JSON_NODE_HOLDS_ARRAY (node))
    {
      JsonArray *array = json_node_get_array (node);

      lid_json_write_open (writer, name, '[');
      for (guint i = 0; i < json_array_get_length (array); i++)
        append_canonical (writer, NULL, json_array_get_element (array, i));
      lid_json_write_close (writer, ']');
    }
  else if (JSON_NODE_HOLDS_NULL (node))
    lid_json_write_null (writer, name);
  else if (json_node_get_value_type (node) == G_TYPE_STRING)
    lid_json_write_text (writer, name, json_node_get_string (node));
  else if (json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    lid_json_write_bool (writer, name, json_node_get_boolean (node));
  else if (json_node_get_value_type (node) == G_TYPE_INT64)
    lid_json_write_int (writer, name, json_node_get_int (node));
  else
    {
      char digits[G_ASCII_DTOSTR_BUF_SIZE];

      g_ascii_dtostr (digits, sizeof digits, json_node_get_double (node));
      lid_json_write_raw (writer, name, digits);
    }
}

/**
 * lid_board_file_hash:
 * @node: a board's definition
 *
 * Returns: (transfer full): SHA-256 of its canonical form, 64 hex digits
 */
char *
lid_board_file_hash (JsonNode *node)
{
  g_autoptr (GString) text = g_string_new (NULL);
  LidJsonWriter writer;

  lid_json_write_start (&writer, text);
  append_canonical (&writer, NULL, node);
  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, text->str, (gssize)text->len);
}

static LidBoard *
read_whole (LidJsonAt root, GError **error)
{
  g_autoptr (LidBoard) board = lid_board_new ();

  if (!read_head (board, &root, error) || !lid_board_file_layout_read (board, &root, error)
      || !lid_board_file_rules_read (board, &root, error)
      || !lid_board_file_modes_read (board, &root, error)
      || !lid_board_file_rates_read (board, &root, error)
      || !lid_board_file_ways_read (board, &root, error)
      || !lid_board_file_limits_read (board, &root, error)
      || !lid_board_file_names_read (board, &root, error))
    return NULL;
  lid_slot_names_give (board);
  board->json = json_node_copy (root.node);
  board->hash = lid_board_file_hash (root.node);
  return g_steal_pointer (&board);
}

/**
 * lid_board_file_from_node:
 * @node: a definition, as a file or a job holds it; borrowed
 * @error: LID_ERROR_BAD_FORMAT with the path, LID_ERROR_NEWER
 *
 * Returns: (transfer full) (nullable): the board
 */
LidBoard *
lid_board_file_from_node (JsonNode *node, GError **error)
{
  return read_whole (lid_json_root (node), error);
}

/**
 * lid_board_file_from_newer:
 * @node: the definition inside a job that a later version wrote
 * @error: as above
 *
 * Reads what is understood and passes over words that are not: a newer job opens, for reading only.
 *
 * Returns: (transfer full) (nullable): the board
 */
LidBoard *
lid_board_file_from_newer (JsonNode *node, GError **error)
{
  LidJsonAt root = lid_json_root (node);

  root.lenient = TRUE;
  return read_whole (root, error);
}

/**
 * lid_board_file_parse:
 * @text: a board file's contents; needs no NUL at its end
 * @size: its bytes
 *
 * Returns: (transfer full) (nullable): the board
 */
LidBoard *
lid_board_file_parse (const char *text, gsize size, GError **error)
{
  g_autoptr (JsonNode) node = lid_json_parse (text, size, error);

  return node != NULL ? lid_board_file_from_node (node, error) : NULL;
}

/**
 * lid_board_file_load:
 * @path: a board file
 * @error: as above, or a file error; the message names the file
 *
 * Returns: (transfer full) (nullable): the board
 */
LidBoard *
lid_board_file_load (const char *path, GError **error)
{
  g_autofree char *text = NULL;
  LidBoard *board = NULL;
  gsize size;

  if (lid_json_load (path, &text, &size, error))
    board = lid_board_file_parse (text, size, error);
  if (board == NULL)
    g_prefix_error (error, "%s: ", path);
  return board;
}

/**
 * lid_board_file_to_node:
 * @board: a board, read, derived or taught
 *
 * Returns: (transfer full): its definition: as it was read, else written anew
 */
JsonNode *
lid_board_file_to_node (const LidBoard *board)
{
  JsonObject *root;
  JsonNode *node;

  if (board->json != NULL)
    return json_node_copy (board->json);
  root = json_object_new ();
  node = json_node_new (JSON_NODE_OBJECT);
  lid_board_save_layout (board, root);
  lid_board_save_rules (board, root);
  lid_board_file_modes_write (board, root);
  lid_board_save_limits (board, root);
  json_node_take_object (node, root);
  return node;
}

/**
 * lid_board_file_to_text:
 *
 * Returns: (transfer full): the board's file, indented, with a newline at its end
 */
char *
lid_board_file_to_text (const LidBoard *board)
{
  g_autoptr (JsonNode) node = lid_board_file_to_node (board);

  return lid_json_text (node, TRUE);
}

/**
 * lid_board_file_save:
 * @path: where to; what was there is replaced at once or not at all
 *
 * Returns: whether it was written
 */
gboolean
lid_board_file_save (const LidBoard *board, const char *path, GError **error)
{
  g_autofree char *text = lid_board_file_to_text (board);

  return lid_save_bytes (path, text, strlen (text), 0644, error);
}
