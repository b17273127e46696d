/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-index.h"

#include "board/board-file.h"
#include "board/board-names.h"

#include <glib/gstdio.h>
#include <string.h>

#define HEAD "lidleaf-board-index 1\n"

static int
compare_texts (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

/* Names of the board files in a folder, sorted; empty when there is no folder. */
static GPtrArray *
list_files (const char *folder)
{
  GPtrArray *files = g_ptr_array_new_with_free_func (g_free);
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  if (dir == NULL)
    return files;
  while ((name = g_dir_read_name (dir)) != NULL)
    if (name[0] != '.' && g_str_has_suffix (name, ".json") && strpbrk (name, "\t\n") == NULL)
      g_ptr_array_add (files, g_strdup (name));
  g_dir_close (dir);
  g_ptr_array_sort (files, compare_texts);
  return files;
}

/* "board\tFILE\tSIZE\tMTIME\t": all of a file's line that a look at the file itself tells. */
static gboolean
append_stat (GString *out, const char *folder, const char *file)
{
  g_autofree char *path = g_build_filename (folder, file, NULL);
  GStatBuf info;

  if (g_stat (path, &info) != 0 || !S_ISREG (info.st_mode))
    return FALSE;
  g_string_append_printf (out, "board\t%s\t%" G_GINT64_FORMAT "\t%" G_GINT64_FORMAT ".%09ld\t",
                          file, (gint64)info.st_size, (gint64)info.st_mtim.tv_sec,
                          (long)info.st_mtim.tv_nsec);
  return TRUE;
}

static void
add_line (GPtrArray *lines, const char *kind, const char *hash, const char *file)
{
  g_autofree char *line = g_strdup_printf ("%s\t%s\t%s\n", kind, hash, file);

  for (guint i = 0; i < lines->len; i++)
    if (strcmp (lines->pdata[i], line) == 0)
      return;
  g_ptr_array_add (lines, g_steal_pointer (&line));
}

static void
add_board (GString *out, GPtrArray *lines, const LidBoard *board, const char *file)
{
  g_autofree char *locators = lid_board_names_of_spellings (board, FALSE);

  g_string_append (out, board->id);
  for (guint i = 0; i < board->n_fingerprints; i++)
    add_line (lines, "names", board->fingerprints[i].names, file);
  if (locators != NULL && board->n_fingerprints > 0)
    add_line (lines, "locators", locators, file);
}

/**
 * lid_board_index_make:
 * @folder: a folder of board files; need not exist
 * @complaints: (element-type utf8) (nullable): gets one sentence for each file that is no board
 *
 * Returns: (transfer full): the index
 */
char *
lid_board_index_make (const char *folder, GPtrArray *complaints)
{
  g_autoptr (GPtrArray) files = list_files (folder);
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (g_free);
  GString *out = g_string_new (HEAD);

  for (guint i = 0; i < files->len; i++)
    {
      const char *file = files->pdata[i];
      g_autofree char *path = g_build_filename (folder, file, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (LidBoard) board = NULL;

      if (!append_stat (out, folder, file))
        continue;
      board = lid_board_file_load (path, &error);
      if (board != NULL)
        add_board (out, lines, board, file);
      else if (complaints != NULL)
        g_ptr_array_add (complaints, g_strdup (error->message));
      g_string_append_c (out, '\n');
    }
  g_ptr_array_sort (lines, compare_texts);
  for (guint i = 0; i < lines->len; i++)
    g_string_append (out, lines->pdata[i]);
  return g_string_free (out, FALSE);
}

/**
 * lid_board_index_is_fresh:
 * @index: an index
 * @folder: its folder
 *
 * Looks at names, sizes and times only.
 *
 * Returns: whether the folder is still as it was when the index was made
 */
gboolean
lid_board_index_is_fresh (const char *index, const char *folder)
{
  g_autoptr (GPtrArray) files = list_files (folder);
  g_autoptr (GString) line = g_string_new (NULL);
  const char *at = index;

  if (!g_str_has_prefix (at, HEAD))
    return FALSE;
  at += strlen (HEAD);
  for (guint i = 0; i < files->len; i++)
    {
      g_string_truncate (line, 0);
      if (!append_stat (line, folder, files->pdata[i]))
        continue;
      if (!g_str_has_prefix (at, line->str))
        return FALSE;
      at = strchr (at, '\n');
      if (at++ == NULL)
        return FALSE;
    }
  return !g_str_has_prefix (at, "board\t");
}

/* The file a line of @kind speaks of when its key is @key: for "board" the key is the id. */
static char *
match_line (const char *line, gsize length, const char *kind, const char *key)
{
  g_autofree char *copy = g_strndup (line, length);
  g_auto (GStrv) words = g_strsplit (copy, "\t", -1);
  guint n = g_strv_length (words);

  if (n == 5 && (key == NULL || (*key != 0 && strcmp (words[4], key) == 0)))
    return g_strdup (words[1]);
  if (n == 3 && g_strcmp0 (words[1], key) == 0)
    return g_strdup (words[2]);
  return NULL;
}

/**
 * lid_board_index_find:
 * @index: an index
 * @kind: "board", "names" or "locators"
 * @key: (nullable): the id or hash; NULL: every board
 *
 * Returns: (transfer full) (element-type utf8): the names of the files, none when nothing fits
 */
GPtrArray *
lid_board_index_find (const char *index, const char *kind, const char *key)
{
  GPtrArray *files = g_ptr_array_new_with_free_func (g_free);
  gsize n_kind = strlen (kind);

  for (const char *at = index, *end; *at != 0; at = end + 1)
    {
      end = strchr (at, '\n');
      if (end == NULL)
        break;
      if (strncmp (at, kind, n_kind) == 0 && at[n_kind] == '\t')
        {
          char *file = match_line (at, (gsize)(end - at), kind, key);

          if (file != NULL)
            g_ptr_array_add (files, file);
        }
    }
  return files;
}
