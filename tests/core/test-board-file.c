/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every file of platforms/ is found by scan: a new board is tested without an edited line. */
#include "board/board-file.h"
#include "support.h"

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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/board-file/platforms-load", test_platforms_load);
  return g_test_run ();
}
