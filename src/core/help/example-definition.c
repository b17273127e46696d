/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an example's board says beyond its slots, in words: the rows of the tables of
 * board-tables.c that a board of the same slots without any definition does not have. */
#include "help/board-tables.h"
#include "help/example-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
has_row (const GPtrArray *tables, const LidBoardTable *table, char **row)
{
  for (guint i = 0; i < tables->len; i++)
    {
      const LidBoardTable *other = tables->pdata[i];

      if (g_strcmp0 (other->title, table->title) != 0)
        continue;
      for (guint k = 0; k < other->rows->len; k++)
        if (g_strv_equal (other->rows->pdata[k], (const char *const *)row))
          return TRUE;
    }
  return FALSE;
}

static gboolean
is_source (const char *head)
{
  return g_strcmp0 (head, _ ("Source")) == 0;
}

/* "Modules: registered; Ranks at most: 8.", cells without anything left out, and the source: an
 * example is invented, as its first words say. */
static void
write_row (GString *out, const LidBoardTable *table, char **row)
{
  guint n = 0;

  for (guint i = 0; i < table->n_columns; i++)
    {
      if (strcmp (row[i], "–") == 0 || is_source (table->heads[i]))
        continue;
      if (table->heads[0] == NULL)
        g_string_append_printf (out, "%s%s", n > 0 ? ": " : "", row[i]);
      else
        g_string_append_printf (out, "%s%s: %s", n > 0 ? "; " : "", table->heads[i], row[i]);
      n++;
    }
  g_string_append_c (out, '.');
}

/**
 * lid_example_definition_words:
 * @board: the example's board
 * @bare: one of the same slots, of which nothing else is said
 *
 * Returns: (transfer full): a sentence a row, each after the title of its table
 */
char *
lid_example_definition_words (const LidBoard *board, const LidBoard *bare)
{
  g_autoptr (GPtrArray) tables = lid_board_tables_new (board);
  g_autoptr (GPtrArray) known = lid_board_tables_new (bare);
  g_autofree char *aside = g_strdup_printf (" (%s)", board->source);
  GString *out = g_string_new (NULL);

  /* The last table is of the file itself: what its sources are worth, and its hash. */
  for (guint i = 0; i + 1 < tables->len; i++)
    {
      const LidBoardTable *table = tables->pdata[i];

      for (guint k = 0; k < table->rows->len; k++)
        if (!has_row (known, table, table->rows->pdata[k])
            && !(table->heads[0] == NULL && g_strv_contains (table->rows->pdata[k], board->source)))
          {
            g_string_append_printf (out, "%s%s. ", out->len > 0 ? " " : "", table->title);
            write_row (out, table, table->rows->pdata[k]);
          }
    }
  g_string_replace (out, aside, "", 0);
  return g_string_free (out, FALSE);
}
