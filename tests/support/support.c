/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support.h"

/**
 * support_data:
 * @name: below tests/data
 *
 * Returns: (transfer full): its path
 */
char *
support_data (const char *name)
{
  return g_build_filename (g_getenv ("LID_TEST_DATA"), name, NULL);
}

/**
 * support_shared:
 * @name: below the shared folder beside the checkout
 *
 * Returns: (transfer full) (nullable): its path, NULL when it is not there (skip that check)
 */
char *
support_shared (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("LID_SHARED"), name, NULL);

  return g_file_test (path, G_FILE_TEST_EXISTS) ? g_steal_pointer (&path) : NULL;
}

char *
support_read_file (const char *path, gsize *size)
{
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, size, &error);
  g_assert_no_error (error);
  return text;
}

static GPtrArray *
split_row (const char **at)
{
  GPtrArray *row = g_ptr_array_new_with_free_func (g_free);
  const char *p = *at;
  GString *cell = g_string_new (NULL);
  gboolean quoted = FALSE;

  for (;; p++)
    {
      if (quoted && *p == '"' && p[1] == '"')
        g_string_append_c (cell, *p++);
      else if (*p == '"')
        quoted = !quoted;
      else if (*p == 0 || (!quoted && (*p == ',' || *p == '\n')))
        {
          g_ptr_array_add (row, g_string_free (cell, FALSE));
          cell = g_string_new (NULL);
          if (*p != ',')
            break;
        }
      else if (*p != '\r')
        g_string_append_c (cell, *p);
    }
  g_string_free (cell, TRUE);
  *at = *p == 0 ? p : p + 1;
  return row;
}

/**
 * support_read_csv:
 * @path: a CSV file after RFC 4180
 *
 * Returns: (transfer full) (element-type GPtrArray): rows of cells, the header first
 */
GPtrArray *
support_read_csv (const char *path)
{
  g_autofree char *text = support_read_file (path, NULL);
  GPtrArray *rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_ptr_array_unref);
  const char *at = text;

  while (*at != 0)
    g_ptr_array_add (rows, split_row (&at));
  return rows;
}

/**
 * support_cell:
 * @rows: what support_read_csv() gave
 * @row: from 1, the first below the header
 * @column: a name of the header
 *
 * Returns: the cell, "" where the row is short
 */
const char *
support_cell (const GPtrArray *rows, guint row, const char *column)
{
  const GPtrArray *header = rows->pdata[0];
  const GPtrArray *cells = rows->pdata[row];

  for (guint i = 0; i < header->len; i++)
    if (g_strcmp0 (header->pdata[i], column) == 0)
      return i < cells->len ? cells->pdata[i] : "";
  g_error ("no column %s", column);
}
