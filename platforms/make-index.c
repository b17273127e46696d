/* SPDX-License-Identifier: GPL-3.0-or-later */
/* make-index SOURCE OUT DEPFILE: copies the boards of SOURCE to OUT, writes their index there and
 * tells the build what it looked at. A board that is no board stops the build. */
#include "board/board-index.h"

#include <gio/gio.h>
#include <stdio.h>

static gboolean
copy_board (const char *source, const char *out, const char *name, GError **error)
{
  g_autofree char *from = g_build_filename (source, name, NULL);
  g_autofree char *to = g_build_filename (out, name, NULL);
  g_autofree char *text = NULL;
  gsize size;

  return g_file_get_contents (from, &text, &size, error)
         && g_file_set_contents (to, text, (gssize)size, error);
}

/* Boards that left the source leave the build tree too. */
static void
drop_gone (const char *source, const char *out)
{
  g_autoptr (GDir) dir = g_dir_open (out, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *there = g_build_filename (source, name, NULL);
      g_autofree char *here = g_build_filename (out, name, NULL);

      if (g_str_has_suffix (name, ".json") && !g_file_test (there, G_FILE_TEST_EXISTS))
        remove (here);
    }
}

static gboolean
make (const char *source, const char *out, const char *depfile, GError **error)
{
  g_autoptr (GPtrArray) complaints = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *checked = lid_board_index_make (source, complaints);
  g_autoptr (GPtrArray) files = lid_board_index_find (checked, "board", NULL);
  g_autofree char *path = g_build_filename (out, LID_BOARD_INDEX_FILE, NULL);
  g_autofree char *index = NULL;
  g_autoptr (GString) depends = g_string_new (NULL);

  if (complaints->len > 0)
    {
      g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_INVAL, complaints->pdata[0]);
      return FALSE;
    }
  g_string_append_printf (depends, "platforms/index: %s", source);
  drop_gone (source, out);
  for (guint i = 0; i < files->len; i++)
    {
      if (!copy_board (source, out, files->pdata[i], error))
        return FALSE;
      g_string_append_printf (depends, " %s/%s", source, (char *)files->pdata[i]);
    }
  g_string_append_c (depends, '\n');
  index = lid_board_index_make (out, NULL);
  return g_file_set_contents (path, index, -1, error)
         && g_file_set_contents (depfile, depends->str, -1, error);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;

  if (argc != 4)
    {
      fprintf (stderr, "usage: make-index SOURCE OUT DEPFILE\n");
      return 1;
    }
  if (make (argv[1], argv[2], argv[3], &error))
    return 0;
  fprintf (stderr, "%s\n", error->message);
  return 1;
}
