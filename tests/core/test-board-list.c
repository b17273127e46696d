/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-file.h"
#include "board/board-index.h"
#include "board/board-list.h"
#include "support.h"

#include <glib/gstdio.h>
#include <string.h>

static char *folder;

static char *
put (const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  return g_steal_pointer (&path);
}

static char *
board_text (const char *id)
{
  g_autofree char *path = support_data ("board/small.json");
  g_autofree char *text = support_read_file (path, NULL);
  g_auto (GStrv) parts = g_strsplit (text, "\"id\": \"small\"", 2);

  return g_strdup_printf ("%s\"id\": \"%s\"%s", parts[0], id, parts[1]);
}

static guint
count (const char *index, const char *kind, const char *key)
{
  g_autoptr (GPtrArray) files = lid_board_index_find (index, kind, key);

  return files->len;
}

static void
test_index (void)
{
  g_autofree char *text = board_text ("one"), *other = board_text ("other");
  g_autofree char *one = put ("a.json", text), *broken = put ("b.json", "{");
  g_autofree char *index = NULL, *again = NULL;
  g_autoptr (GPtrArray) complaints = g_ptr_array_new_with_free_func (g_free);

  index = lid_board_index_make (folder, complaints);
  g_assert_cmpuint (complaints->len, ==, 1);
  g_assert_nonnull (strstr (complaints->pdata[0], "b.json"));
  g_assert_cmpuint (count (index, "board", NULL), ==, 2);
  g_assert_cmpuint (count (index, "board", "one"), ==, 1);
  g_assert_cmpuint (count (index, "board", ""), ==, 0);
  g_assert_cmpuint (
      count (index, "names", "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef"),
      ==, 1);
  g_assert_true (lid_board_index_is_fresh (index, folder));

  /* One gone, one changed in size, one come: each makes it stale. */
  g_remove (broken);
  g_assert_false (lid_board_index_is_fresh (index, folder));
  again = lid_board_index_make (folder, NULL);
  g_assert_true (lid_board_index_is_fresh (again, folder));
  g_free (put ("a.json", other));
  g_assert_false (lid_board_index_is_fresh (again, folder));
  g_free (again);
  again = lid_board_index_make (folder, NULL);
  g_free (put ("c.json", text));
  g_assert_false (lid_board_index_is_fresh (again, folder));
  g_assert_false (lid_board_index_is_fresh ("", folder));
  g_assert_false (lid_board_index_is_fresh ("lidleaf-board-index 1\nboard\ta.json", folder));
}

static void
clear_folder (void)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_remove (path);
    }
}

/* The index of the build lists the boards of the source, and no file more. */
static void
test_all (void)
{
  g_autofree char *platforms = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", NULL);
  g_autofree char *fresh = lid_board_index_make (platforms, NULL);
  g_autoptr (GPtrArray) entries = NULL;

  clear_folder ();
  lid_board_list_set_folders (NULL, folder);
  entries = lid_board_list_all ();
  g_assert_cmpuint (entries->len, ==, count (fresh, "board", NULL));
  for (guint i = 0; i < entries->len; i++)
    {
      const LidBoardEntry *entry = entries->pdata[i];
      g_autofree char *base = g_path_get_basename (entry->path);

      g_assert_false (entry->users);
      g_assert_true (g_str_has_prefix (base, entry->id));
    }
}

static void
test_load (void)
{
  g_autofree char *text = board_text ("mine"), *path = put ("odd-name.json", text);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) mine = NULL, by_path = NULL, ours = NULL;

  lid_board_list_set_folders (NULL, folder);
  mine = lid_board_list_load ("mine", &error);
  g_assert_no_error (error);
  by_path = lid_board_list_load (path, &error);
  g_assert_true (mine == by_path); /* parsed once */
  ours = lid_board_list_load ("tern-w4", &error);
  g_assert_no_error (error);
  g_assert_null (lid_board_list_load ("no-such-board", &error));
  g_assert_nonnull (strstr (error->message, "no board “no-such-board”"));
}

/* A folder without an index, such as a checkout's, works too. */
static void
test_folder_without_index (void)
{
  g_autofree char *platforms = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) board = NULL;

  lid_board_list_set_folders (platforms, "/dev/null/lidleaf");
  board = lid_board_list_load ("dunlin-s1", &error);
  g_assert_no_error (error);
  g_assert_false (lid_board_list_save_user (board, &error));
  g_assert_nonnull (error);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  folder = g_dir_make_tmp ("lidleaf-XXXXXX", NULL);
  g_test_add_func ("/board-list/index", test_index);
  g_test_add_func ("/board-list/all", test_all);
  g_test_add_func ("/board-list/load", test_load);
  g_test_add_func ("/board-list/folder-without-index", test_folder_without_index);
  status = g_test_run ();
  lid_board_list_set_folders (NULL, NULL);
  clear_folder ();
  g_rmdir (folder);
  g_free (folder);
  return status;
}
