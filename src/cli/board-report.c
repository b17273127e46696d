/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board-report.h"

#include "columns.h"
#include "json-line.h"

#include "base/json-text.h"
#include "base/json-write.h"
#include "base/text.h"
#include "board/board-file.h"
#include "help/board-tables.h"

#include <glib/gi18n.h>

/* A table of help/board-tables.c: heads, if it has some, then its rows in columns. */
static void
add_table (GString *out, const LidBoardTable *table)
{
  LidColumns columns;

  g_string_append_printf (out, "\n%s\n", table->title);
  if (table->note != NULL)
    g_string_append_printf (out, "  %s\n", table->note);
  lid_columns_start (&columns, table->n_columns);
  for (guint k = 0; k < table->n_columns && table->heads[0] != NULL && table->rows->len > 0; k++)
    lid_columns_add (&columns, table->heads[k]);
  for (guint i = 0; i < table->rows->len; i++)
    for (guint k = 0; k < table->n_columns; k++)
      lid_columns_add (&columns, ((char **)table->rows->pdata[i])[k]);
  lid_columns_finish (&columns, out, "  ");
}

/**
 * lid_board_report_text:
 * @out: gets the board in people's words: the tables of its page
 */
void
lid_board_report_text (GString *out, const LidBoard *board)
{
  g_autoptr (GPtrArray) tables = lid_board_tables_new (board);

  g_string_append_printf (out, _ ("%s (%s, version %u)\n"), board->name, board->id, board->version);
  if (board->about != NULL)
    g_string_append_printf (out, "%s\n", board->about);
  g_string_append_printf (out, _ ("Source: %s\n"), board->source);
  if (board->derived)
    g_string_append (out, _ ("Derived from one machine: it tells no rates, limits or places.\n"));
  for (guint i = 0; i < tables->len; i++)
    add_table (out, tables->pdata[i]);
}

/**
 * lid_board_report_json:
 * @out: gets one line, without its end
 * @source: the board's file
 * @reason: (nullable): why it could not be read; then @board is NULL
 * @whole: the definition too
 */
void
lid_board_report_json (
    GString *out, const char *source, const char *reason, const LidBoard *board, gboolean whole)
{
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, source, reason);
  lid_json_write_text (&writer, "id", board != NULL ? board->id : NULL);
  lid_json_write_text (&writer, "name", board != NULL ? board->name : NULL);
  lid_json_write_int_or_null (&writer, "sockets", board != NULL ? board->n_sockets : 0,
                              board != NULL && board->sockets_told);
  lid_json_write_int_or_null (&writer, "channels", board != NULL ? board->n_channels : 0,
                              board != NULL && board->channels_told);
  lid_json_write_int_or_null (&writer, "slots", board != NULL ? board->n_slots : 0, board != NULL);
  lid_json_write_int_or_null (&writer, "version", board != NULL ? board->version : 0,
                              board != NULL);
  lid_json_write_text (&writer, "hash", board != NULL ? board->hash : NULL);
  if (board != NULL && whole)
    {
      g_autoptr (JsonNode) node = lid_board_file_to_node (board);
      g_autofree char *text = lid_json_text (node, FALSE);

      lid_json_write_raw (&writer, "definition", text);
    }
  lid_json_write_close (&writer, '}');
}
