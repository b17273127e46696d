/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "help/board-tables-private.h"

#include "base/units.h"
#include "facts/module-kind.h"

#include <glib/gi18n-lib.h>
#include <stdarg.h>

static void
table_free (gpointer data)
{
  LidBoardTable *table = data;

  g_ptr_array_unref (table->rows);
  g_free (table->note);
  g_free (table);
}

/**
 * lid_board_tables_add:
 * @title: in the reader's language, static
 * @note: (transfer full) (nullable): a paragraph under it
 *
 * Returns: (transfer none): a table of two columns without heads until it is told otherwise
 */
LidBoardTable *
lid_board_tables_add (GPtrArray *tables, const char *title, char *note)
{
  LidBoardTable *table = g_new0 (LidBoardTable, 1);

  table->title = title;
  table->note = note;
  table->n_columns = 2;
  table->rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  g_ptr_array_add (tables, table);
  return table;
}

/**
 * lid_board_tables_heads:
 * @...: the heads of its columns, NULL at the end; at most LID_BOARD_TABLE_MOST
 */
void
lid_board_tables_heads (LidBoardTable *table, ...)
{
  const char *head;
  va_list args;

  table->n_columns = 0;
  va_start (args, table);
  while ((head = va_arg (args, const char *)) != NULL)
    {
      g_assert (table->n_columns < LID_BOARD_TABLE_MOST);
      table->heads[table->n_columns++] = head;
    }
  va_end (args);
}

/**
 * lid_board_tables_row:
 * @first: (transfer full): its first cell
 * @...: (transfer full): the others, NULL at the end; as many as the table has columns
 */
void
lid_board_tables_row (LidBoardTable *table, char *first, ...)
{
  char **cells = g_new0 (char *, table->n_columns + 1);
  va_list args;

  cells[0] = first;
  va_start (args, first);
  for (guint i = 1; i < table->n_columns; i++)
    {
      cells[i] = va_arg (args, char *);
      g_assert (cells[i] != NULL);
    }
  va_end (args);
  g_ptr_array_add (table->rows, cells);
}

/**
 * lid_board_tables_kinds:
 *
 * Returns: (transfer full): "registered or load-reduced", "any" where the set is empty
 */
char *
lid_board_tables_kinds (guint32 kinds)
{
  GString *text = g_string_new (NULL);

  for (guint i = 1; i < LID_N_KINDS; i++)
    if (kinds & (1u << i))
      g_string_append_printf (text, "%s%s", text->len > 0 ? _ (" or ") : "",
                              lid_kind_to_words ((LidKind)i));
  if (text->len == 0)
    g_string_append (text, _ ("any"));
  return g_string_free (text, FALSE);
}

char *
lid_board_tables_slots (const LidBoard *board, const guint *slots, guint n_slots)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < n_slots; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", board->slots[slots[i]].id);
  return g_string_free (text, FALSE);
}

char *
lid_board_tables_source (const char *source)
{
  return g_strdup (source != NULL ? source : _ ("not told"));
}

char *
lid_board_tables_most (LidRate rate)
{
  return rate != LID_RATE_UNKNOWN ? lid_units_rate (rate) : g_strdup (_ ("not told"));
}

/* Sources that may be named; every other S code is a maker's guide that is not. Source:
 * shared/facts/sources.md. */
static const struct
{
  const char *code;
  const char *title;
} codes[] = {
  { "S26", "Energies 19(9) 2150, MDPI, introduction" },
  { "S27", "Report on multiplexed-rank DIMMs, Micron" },
  { "S28", "FAQ KTM-012711-GEN-20 (DDR5 training time) and DDR3L article, Kingston" },
  { "S30", "ANSI/ESD S20.20-2021, scope as published by the ANSI web store" },
  { "S33", "F. Denneman, Memory Deep Dive series" },
  { "S38", "Thomas-Krenn wiki, memory optimisation pages" },
  { "S42", "A public how-to on slot colours of small boards" },
  { "K1", "Linux kernel, drivers/edac/skx_base.c" },
  { "K2", "Linux kernel, drivers/ras, address translation library, interleave modes" },
  { "K3", "OpenPOWER hostboot, p9_mss_eff_grouping.C" },
  { "K4", "Open firmware tables for registered DDR3, rate limits by slots per channel" },
  { "K5", "Linux kernel, Documentation/admin-guide/RAS/main.rst" },
  { "K6", "Firmware's published rules for interleave sets of another kind of memory on the same "
          "controllers" },
};

/* Whether some cell of the board's tables names @code. */
static gboolean
is_named (const GPtrArray *tables, const char *code)
{
  g_autofree char *pattern = g_strdup_printf ("\\b%s\\b", code);

  for (guint t = 0; t < tables->len; t++)
    {
      const LidBoardTable *table = tables->pdata[t];

      for (guint i = 0; i < table->rows->len; i++)
        for (char **cell = table->rows->pdata[i]; *cell != NULL; cell++)
          if (g_regex_match_simple (pattern, *cell, 0, 0))
            return TRUE;
    }
  return FALSE;
}

static void
add_named_codes (LidBoardTable *table, const GPtrArray *tables)
{
  for (guint i = 0; i < G_N_ELEMENTS (codes); i++)
    if (is_named (tables, codes[i].code))
      lid_board_tables_row (table, g_strdup (codes[i].code), g_strdup (codes[i].title), NULL);
}

/* What a code behind a figure is worth; source: shared/facts/sources.md. */
static void
add_codes (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table = lid_board_tables_add (
      tables, _ ("What the sources are worth"),
      g_strdup (_ ("S or K with a number is an entry in the project's list of sources. Where it "
                   "stands for a server or processor maker's published guide, the guide is not "
                   "named: the figure is an example of what boards do, never the truth about one "
                   "machine. “From memory” and “common practice” have no document behind them. "
                   "“Invented” is part of the scenario.")));

  lid_board_tables_row (table, g_strdup (_ ("Definition")),
                        g_strdup_printf (_ ("%s, version %u"), board->id, board->version), NULL);
  lid_board_tables_row (table, g_strdup (_ ("Its own word")),
                        lid_board_tables_source (board->source), NULL);
  if (board->hash != NULL)
    lid_board_tables_row (table, g_strdup (_ ("SHA-256")), g_strdup (board->hash), NULL);
  add_named_codes (table, tables);
}

/**
 * lid_board_tables_new:
 * @board: a board; texts are made from it, it need not live on
 *
 * Returns: (transfer full) (element-type LidBoardTable): its tables in the order they are read
 */
GPtrArray *
lid_board_tables_new (const LidBoard *board)
{
  GPtrArray *tables = g_ptr_array_new_with_free_func (table_free);

  lid_board_tables_layout (tables, board);
  lid_board_tables_rates (tables, board);
  lid_board_tables_rules (tables, board);
  lid_board_tables_modes (tables, board);
  lid_board_tables_limits (tables, board);
  add_codes (tables, board);
  return tables;
}
