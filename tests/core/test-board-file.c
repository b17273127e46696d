/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every file of platforms/ is found by scan: a new board is tested without an edited line. */
#include "board/board-file.h"
#include "support.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

static GPtrArray *
list_folder (const char *folder, const char *prefix)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  const char *name;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_prefix (name, prefix) && g_str_has_suffix (name, ".json"))
      g_ptr_array_add (paths, g_build_filename (folder, name, NULL));
  return paths;
}

static GPtrArray *
list_platforms (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", NULL);

  return list_folder (folder, "");
}

/* What a definition of ours must tell, beyond what the loader asks of any board. */
static void
check_complete (const LidBoard *board, const char *path)
{
  g_autofree char *base = g_path_get_basename (path);
  g_autofree char *expected = g_strdup_printf ("%s.json", board->id);
  guint n_listed = 0, n_real = 0;

  g_test_message ("%s", base);
  g_assert_cmpstr (base, ==, expected);
  g_assert_true (board->placed && board->channels_told && board->sockets_told);
  g_assert_nonnull (board->about);
  g_assert_cmpuint (board->n_rates, >, 0);
  g_assert_cmpuint (board->n_processors, >, 0);
  g_assert_cmpuint (board->n_firmware, >, 0);
  g_assert_cmpuint (board->n_fingerprints, >, 0);
  g_assert_true (board->region_model_told);
  g_assert_nonnull (board->efficiency_source);
  for (guint i = 0; i < board->n_slots; i++)
    n_real += board->slots[i].soldered == NULL;
  g_assert_cmpuint (board->n_order, ==, n_real);
  for (guint i = 0; i < board->n_limits; i++)
    n_listed += board->limits[i].basis == LID_LISTED;
  g_assert_cmpuint (n_listed, >, 0);
  g_assert_cmpuint (strlen (board->hash), ==, 64);
}

static void
test_platforms_load (void)
{
  g_autoptr (GPtrArray) paths = list_platforms ();

  g_assert_cmpuint (paths->len, >=, 6);
  for (guint i = 0; i < paths->len; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (LidBoard) board = lid_board_file_load (paths->pdata[i], &error);

      g_assert_no_error (error);
      check_complete (board, paths->pdata[i]);
    }
}

/* Follows a JSON pointer to the node that holds the last part; the test's own cases, so it may
 * assert. */
static JsonNode *
find_holder (JsonNode *node, char **parts, guint n_parts)
{
  for (guint i = 1; i + 1 < n_parts; i++)
    node = JSON_NODE_HOLDS_ARRAY (node)
               ? json_array_get_element (json_node_get_array (node), (guint)atoi (parts[i]))
               : json_object_get_member (json_node_get_object (node), parts[i]);
  g_assert_nonnull (node);
  return node;
}

/* json-glib cannot replace an element of an array: the array is rebuilt. */
static void
change_array (JsonNode *holder, guint index, JsonNode *to)
{
  JsonArray *old = json_node_get_array (holder), *array = json_array_new ();
  guint length = json_array_get_length (old);

  for (guint i = 0; i < MAX (length, index + 1); i++)
    if (i != index)
      json_array_add_element (array, json_node_copy (json_array_get_element (old, i)));
    else if (to != NULL)
      json_array_add_element (array, json_node_copy (to));
  json_node_take_array (holder, array);
}

static JsonNode *
load_node (const char *path)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;

  json_parser_load_from_file (parser, path, &error);
  g_assert_no_error (error);
  return json_parser_steal_root (parser);
}

static JsonNode *
break_board (JsonObject *change)
{
  g_autofree char *path = support_data ("board/small.json");
  g_auto (GStrv) parts = g_strsplit (json_object_get_string_member (change, "at"), "/", -1);
  guint n_parts = g_strv_length (parts);
  JsonNode *root = load_node (path);
  JsonNode *holder = find_holder (root, parts, n_parts);
  JsonNode *to
      = json_object_has_member (change, "remove") ? NULL : json_object_get_member (change, "to");
  const char *last = parts[n_parts - 1];

  if (JSON_NODE_HOLDS_ARRAY (holder))
    change_array (holder, (guint)atoi (last), to);
  else if (to != NULL)
    json_object_set_member (json_node_get_object (holder), last, json_node_copy (to));
  else
    json_object_remove_member (json_node_get_object (holder), last);
  return root;
}

static void
test_broken_boards (void)
{
  g_autofree char *folder = support_data ("board");
  g_autoptr (GPtrArray) paths = list_folder (folder, "bad-");

  g_assert_cmpuint (paths->len, >, 50);
  for (guint i = 0; i < paths->len; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (JsonNode) change = load_node (paths->pdata[i]);
      g_autoptr (JsonNode) node = break_board (json_node_get_object (change));
      g_autoptr (LidBoard) board = lid_board_file_from_node (node, &error);
      const char *complaint
          = json_object_get_string_member (json_node_get_object (change), "complaint");

      g_test_message ("%s: %s", (char *)paths->pdata[i], error != NULL ? error->message : "taken");
      g_assert_null (board);
      g_assert_nonnull (strstr (error->message, complaint));
    }
}

/* A value the format does without: leaving the member out says the same. */
static gboolean
is_default (JsonNode *node)
{
  static const char *const words[] = { "free", "logical", "silent", "nothing", NULL };

  if (!JSON_NODE_HOLDS_VALUE (node))
    return FALSE;
  if (json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    return !json_node_get_boolean (node);
  return json_node_get_value_type (node) == G_TYPE_STRING
         && g_strv_contains (words, json_node_get_string (node));
}

/* Whether everything the file says stands in what was written of it. */
static void
assert_contains (JsonNode *written, JsonNode *file, const char *path)
{
  JsonObjectIter iter;
  const char *name;
  JsonNode *node;

  if (JSON_NODE_HOLDS_OBJECT (file))
    {
      json_object_iter_init (&iter, json_node_get_object (file));
      while (json_object_iter_next (&iter, &name, &node))
        {
          g_autofree char *deeper = g_strdup_printf ("%s.%s", path, name);
          JsonNode *other = json_object_get_member (json_node_get_object (written), name);

          if (other == NULL && !is_default (node))
            g_error ("%s was not written", deeper);
          if (other != NULL)
            assert_contains (other, node, deeper);
        }
    }
  else if (JSON_NODE_HOLDS_ARRAY (file))
    {
      JsonArray *a = json_node_get_array (file), *b = json_node_get_array (written);

      g_assert_cmpuint (json_array_get_length (a), ==, json_array_get_length (b));
      for (guint i = 0; i < json_array_get_length (a); i++)
        assert_contains (json_array_get_element (b, i), json_array_get_element (a, i), path);
    }
  else if (!JSON_NODE_HOLDS_NULL (file) && json_node_get_value_type (file) != G_TYPE_STRING
           && json_node_get_value_type (file) != G_TYPE_BOOLEAN)
    /* A rate close to a step is that step: 2667 comes back as 2666. */
    g_assert_cmpfloat_with_epsilon (json_node_get_double (written), json_node_get_double (file),
                                    g_str_has_suffix (path, "mts") ? 1.5 : 0.0001);
  else if (!json_node_equal (written, file))
    g_error ("%s changed", path);
}

static void
check_round_trip (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) board = lid_board_file_load (path, &error), again = NULL;
  g_autoptr (JsonNode) file = NULL, written = NULL, twice = NULL;

  g_test_message ("%s", path);
  g_assert_no_error (error);
  file = g_steal_pointer (&board->json);
  written = lid_board_file_to_node (board);
  assert_contains (written, file, "");
  again = lid_board_file_from_node (written, &error);
  g_assert_no_error (error);
  g_clear_pointer (&again->json, json_node_unref);
  twice = lid_board_file_to_node (again);
  g_assert_true (json_node_equal (written, twice));
}

static void
test_round_trip (void)
{
  g_autoptr (GPtrArray) paths = list_platforms ();

  g_ptr_array_add (paths, support_data ("board/small.json"));
  for (guint i = 0; i < paths->len; i++)
    check_round_trip (paths->pdata[i]);
}

static void
test_every_word_is_read (void)
{
  g_autofree char *path = support_data ("board/small.json");
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) board = lid_board_file_load (path, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (board->n_sockets, ==, 1);
  g_assert_cmpuint (board->n_channels, ==, 3);
  g_assert_cmpuint (board->n_slots, ==, 4);
  g_assert_cmpuint (board->sockets[0].n_controllers, ==, 2);
  g_assert_cmpint (board->channels[2].controller, ==, 4);
  g_assert_cmpstr (board->slots[1].name, ==, "second");
  g_assert_cmpint (board->slots[0].max_height, ==, 3125);
  g_assert_cmpint (lid_module_rated (board->slots[3].soldered), ==, 8000);
  g_assert_cmpuint (board->kinds, ==, 1u << LID_KIND_REGISTERED | 1u << LID_KIND_LOAD_REDUCED);
  g_assert_true (board->needs_ecc && board->persistent_taken && board->has_baffle);
  g_assert_cmpuint (board->processors[0].rate[LID_KIND_REGISTERED], ==, 8000);
  g_assert_cmpint (board->rates[0].processor, ==, 1);
  g_assert_cmpint (board->rates[1].processor, ==, LID_NOWHERE);
  g_assert_cmpuint (board->rate_ceiling, ==, 8800);
  g_assert_true (board->rate_per_socket);
  g_assert_cmpuint (board->mixes[LID_MIX_CHECK_BITS].most_classes, ==, 2);
  g_assert_cmpint (board->mixes[LID_MIX_KINDS].stops, ==, LID_STOPS_SLOTS);
  g_assert_cmpuint (board->order[1], ==, 2);
  g_assert_cmpuint (board->ways, ==, 6);
  g_assert_cmpuint (board->efficiency, ==, 7500);
  g_assert_cmpstr (board->limits[2].firmware, ==, "1.2");
  g_assert_true (g_array_index (board->firmware[1].gifts, LidFirmwareGift, 2).non_binary);
  g_assert_cmpuint (board->fingerprints[0].n_slots, ==, 4);
}

/* Whatever order members and blanks come in, it is the same definition; one digit more is not. */
static void
test_hash (void)
{
  static const char a[] = "{\"b\": [1, 2.50, \"x\"], \"a\": {\"d\": null, \"c\": true}}";
  static const char b[] = "{\"a\":{\"c\":true,\"d\":null},\"b\":[1,2.5,\"x\"]}";
  static const char c[] = "{\"a\":{\"c\":true,\"d\":null},\"b\":[1,2.51,\"x\"]}";
  g_autoptr (JsonNode) node_a = json_from_string (a, NULL), node_b = json_from_string (b, NULL);
  g_autoptr (JsonNode) node_c = json_from_string (c, NULL);
  g_autofree char *hash_a = lid_board_file_hash (node_a), *hash_b = lid_board_file_hash (node_b);
  g_autofree char *hash_c = lid_board_file_hash (node_c);
  g_autofree char *known = g_compute_checksum_for_string (G_CHECKSUM_SHA256, b, -1);

  g_assert_cmpstr (hash_a, ==, hash_b);
  g_assert_cmpstr (hash_a, ==, known);
  g_assert_cmpstr (hash_a, !=, hash_c);
}

/* Cut at every byte: a board or one sentence, never a crash. */
static void
test_cut (void)
{
  g_autofree char *path = support_data ("board/small.json");
  gsize size;
  g_autofree char *text = support_read_file (path, &size);

  for (gsize i = 0; i + 2 < size; i += 7)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (LidBoard) board = lid_board_file_parse (text, i, &error);

      g_assert_null (board);
      g_assert_nonnull (error);
    }
}

/* One byte changed: 00, FF, or one bit. What is taken must also be written and taken again. */
static void
test_changed (void)
{
  g_autofree char *path = support_data ("board/small.json");
  gsize size;
  g_autofree char *text = support_read_file (path, &size);

  for (gsize i = 0; i < size; i += 11)
    for (guint k = 0; k < 3; k++)
      {
        g_autoptr (GError) error = NULL;
        g_autoptr (LidBoard) board = NULL;
        char kept = text[i];

        text[i] = k == 0 ? 0 : k == 1 ? (char)0xff : (char)(kept ^ 1);
        board = lid_board_file_parse (text, size, &error);
        text[i] = kept;
        g_assert_true ((board != NULL) == (error == NULL));
        if (board != NULL)
          {
            g_autoptr (JsonNode) node = NULL;
            g_autoptr (LidBoard) again = NULL;

            g_clear_pointer (&board->json, json_node_unref);
            node = lid_board_file_to_node (board);
            again = lid_board_file_from_node (node, &error);
            g_assert_no_error (error);
          }
      }
}

static void
test_save (void)
{
  g_autofree char *path = support_data ("board/small.json");
  g_autofree char *folder = g_dir_make_tmp ("lidleaf-XXXXXX", NULL);
  g_autofree char *copy = g_build_filename (folder, "copy.json", NULL);
  g_autofree char *nowhere = g_build_filename (folder, "no-folder", "copy.json", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) board = lid_board_file_load (path, &error), again = NULL;

  g_assert_true (lid_board_file_save (board, copy, &error));
  again = lid_board_file_load (copy, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (board->hash, ==, again->hash);
  g_assert_false (lid_board_file_save (board, nowhere, &error));
  g_assert_nonnull (error);
  g_remove (copy);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/board-file/platforms-load", test_platforms_load);
  g_test_add_func ("/board-file/every-word-is-read", test_every_word_is_read);
  g_test_add_func ("/board-file/broken-boards", test_broken_boards);
  g_test_add_func ("/board-file/round-trip", test_round_trip);
  g_test_add_func ("/board-file/hash", test_hash);
  g_test_add_func ("/board-file/cut", test_cut);
  g_test_add_func ("/board-file/changed", test_changed);
  g_test_add_func ("/board-file/save", test_save);
  return g_test_run ();
}
