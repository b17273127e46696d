/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-file.h"
#include "board/board-list.h"
#include "board/board-newer.h"

#include <string.h>

static LidBoard *
changed (const char *from, const char *to)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", "tern-w4.json", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GString) edited = NULL;
  g_autoptr (GError) error = NULL;
  LidBoard *board;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  edited = g_string_new (text);
  if (from != NULL)
    g_assert_cmpuint (g_string_replace (edited, from, to, 1), ==, 1);
  board = lid_board_file_parse (edited->str, edited->len, &error);
  g_assert_no_error (error);
  return board;
}

static void
test_same_is_not_offered (void)
{
  g_autoptr (LidBoard) embedded = changed (NULL, NULL);

  g_assert_null (lid_board_newer_find (embedded, NULL));
}

static void
test_differences_are_named (void)
{
  g_autoptr (LidBoard) embedded = changed ("\"mts\": 2133", "\"mts\": 1866");
  g_autoptr (GPtrArray) differences = NULL;
  g_autoptr (LidBoard) known = lid_board_newer_find (embedded, &differences);

  g_assert_nonnull (known);
  g_assert_cmpuint (differences->len, ==, 1);
  g_assert_cmpstr (differences->pdata[0], ==, "processors");
}

static void
test_older_is_not_offered (void)
{
  g_autoptr (LidBoard) embedded = changed ("\"version\": ", "\"version\": 7");

  g_assert_null (lid_board_newer_find (embedded, NULL));
}

int
main (int argc, char **argv)
{
  g_autofree char *platforms = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", NULL);

  g_test_init (&argc, &argv, NULL);
  lid_board_list_set_folders (platforms, "/nonexistent");
  g_test_add_func ("/board-newer/same", test_same_is_not_offered);
  g_test_add_func ("/board-newer/differences", test_differences_are_named);
  g_test_add_func ("/board-newer/older", test_older_is_not_offered);
  return g_test_run ();
}
