/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "columns.h"

#define MOST_COLUMNS 8

void
lid_columns_start (LidColumns *columns, guint n_columns)
{
  g_return_if_fail (n_columns > 0 && n_columns <= MOST_COLUMNS);
  columns->n_columns = n_columns;
  columns->cells = g_ptr_array_new_with_free_func (g_free);
}

/**
 * lid_columns_add:
 * @columns: the columns
 * @text: (nullable): the next cell, row by row
 */
void
lid_columns_add (LidColumns *columns, const char *text)
{
  g_ptr_array_add (columns->cells, g_strdup (text != NULL ? text : ""));
}

/**
 * lid_columns_finish:
 * @columns: filled in whole rows; emptied
 * @out: gets the rows, without blanks at their ends
 * @indent: before each row
 */
void
lid_columns_finish (LidColumns *columns, GString *out, const char *indent)
{
  glong widths[MOST_COLUMNS] = { 0 };
  guint n = columns->n_columns;

  for (guint i = 0; i < columns->cells->len; i++)
    widths[i % n] = MAX (widths[i % n], g_utf8_strlen (columns->cells->pdata[i], -1));
  for (guint i = 0; i < columns->cells->len; i++)
    {
      const char *text = columns->cells->pdata[i];

      if (i % n == 0)
        g_string_append (out, indent);
      g_string_append (out, text);
      for (glong pad = g_utf8_strlen (text, -1); pad < widths[i % n] + 2; pad++)
        g_string_append_c (out, ' ');
      if (i % n == n - 1)
        {
          while (out->len > 0 && out->str[out->len - 1] == ' ')
            g_string_truncate (out, out->len - 1);
          g_string_append_c (out, '\n');
        }
    }
  g_clear_pointer (&columns->cells, g_ptr_array_unref);
}
