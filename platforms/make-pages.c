/* SPDX-License-Identifier: GPL-3.0-or-later */
/* make-pages SOURCE OUT DEPFILE: draws the page of every board of SOURCE into the folder OUT as a
 * PDF and tells the build what it looked at. */
#include "board/board-file.h"
#include "board/board-index.h"
#include "drawing/board-page.h"
#include "drawing/export.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <sys/time.h>

static gboolean
draw (LidDrawText *text, const char *path, const char *out, GError **error)
{
  g_autoptr (LidBoard) board = lid_board_file_load (path, error);
  LidMeasure measure = lid_draw_text_measure (text);
  g_autoptr (LidSheet) sheet = NULL;
  g_autoptr (GPtrArray) files = NULL;
  g_autofree char *name = NULL, *to = NULL;

  if (board == NULL)
    return FALSE;
  name = g_strconcat (board->id, ".pdf", NULL);
  to = g_build_filename (out, name, NULL);
  sheet = lid_board_page_new (board, LID_PAPER_A4, &measure);
  files = lid_export_files (lid_export_find (to, NULL), text, sheet, to, error);
  return files != NULL;
}

/* The folder is made anew: the page of a board that is gone goes too, and its time is now. */
static void
empty (const char *out)
{
  g_autoptr (GDir) dir = g_dir_open (out, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (out, name, NULL);

      if (g_str_has_suffix (name, ".pdf"))
        g_remove (path);
    }
  g_mkdir_with_parents (out, 0755);
  utimes (out, NULL);
}

static gboolean
make (const char *source, const char *out, const char *depfile, GError **error)
{
  g_autofree char *index = lid_board_index_make (source, NULL);
  g_autoptr (GPtrArray) files = lid_board_index_find (index, "board", NULL);
  g_autoptr (LidDrawText) text = lid_draw_text_new (lid_theme_print ());
  g_autoptr (GString) depends = g_string_new (NULL);

  g_string_append_printf (depends, "platforms/pages: %s", source);
  empty (out);
  for (guint i = 0; i < files->len; i++)
    {
      g_autofree char *path = g_build_filename (source, files->pdata[i], NULL);

      if (!draw (text, path, out, error))
        return FALSE;
      g_string_append_printf (depends, " %s", path);
    }
  g_string_append_c (depends, '\n');
  return g_file_set_contents (depfile, depends->str, -1, error);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;

  if (argc != 4)
    {
      fprintf (stderr, "usage: make-pages SOURCE OUT DEPFILE\n");
      return 1;
    }
  if (make (argv[1], argv[2], argv[3], &error))
    return 0;
  fprintf (stderr, "%s\n", error->message);
  return 1;
}
