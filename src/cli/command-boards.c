/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board-report.h"
#include "columns.h"
#include "command.h"
#include "commands.h"
#include "output.h"

#include "base/error.h"
#include "board/board-file.h"
#include "board/board-list.h"
#include "board/board-teach.h"
#include "drawing/board-page.h"
#include "drawing/export.h"
#include "locators/locators.h"
#include "locators/teach.h"
#include "readers/readers.h"

#include <glib/gi18n.h>
#include <string.h>

static char *teach, *out_path, *paper_name;
static gboolean page;

static const GOptionEntry entries[] = {
  { "teach", 0, 0, G_OPTION_ARG_STRING, &teach,
    N_ ("Teach how the slots of INPUT are numbered: by-channel:N, first-slots-first:C, mirrored:C, "
        "letter-order, letter-socket, letter-socket:C, channels:A1+A2,B1+B2"),
    N_ ("PATTERN") },
  { "page", 0, 0, G_OPTION_ARG_NONE, &page,
    N_ ("Draw the page of the board ID: pictures, tables, sources"), NULL },
  { "paper", 0, 0, G_OPTION_ARG_STRING, &paper_name, N_ ("Paper of the page (default: a4)"),
    N_ ("a4|letter") },
  { "output", 'o', 0, G_OPTION_ARG_FILENAME, &out_path,
    N_ ("Save the taught board there, or the page: .pdf, .svg or .png; - prints it"), N_ ("FILE") },
  G_OPTION_ENTRY_NULL,
};

static void
add_number (LidColumns *columns, guint number, gboolean known)
{
  g_autofree char *text = known ? g_strdup_printf ("%u", number) : g_strdup (_ ("not told"));

  lid_columns_add (columns, text);
}

static void
add_row (LidColumns *columns, const LidBoard *board, gboolean users)
{
  lid_columns_add (columns, board->id);
  lid_columns_add (columns, board->name);
  add_number (columns, board->n_sockets, board->sockets_told);
  add_number (columns, board->n_channels, board->channels_told);
  add_number (columns, board->n_slots, TRUE);
  lid_columns_add (columns, users ? _ ("yours") : NULL);
}

static LidExit
list_boards (gboolean json)
{
  g_autoptr (GPtrArray) all = lid_board_list_all ();
  g_autoptr (GString) out = g_string_new (NULL);
  LidExit status = LID_EXIT_DONE;
  LidColumns columns;

  lid_columns_start (&columns, 6);
  lid_columns_add (&columns, _ ("ID"));
  lid_columns_add (&columns, _ ("NAME"));
  lid_columns_add (&columns, _ ("SOCKETS"));
  lid_columns_add (&columns, _ ("CHANNELS"));
  lid_columns_add (&columns, _ ("SLOTS"));
  lid_columns_add (&columns, NULL);
  for (guint i = 0; i < all->len; i++)
    {
      const LidBoardEntry *entry = all->pdata[i];
      g_autoptr (GError) error = NULL;
      g_autoptr (LidBoard) board = lid_board_list_load (entry->path, &error);

      if (board == NULL)
        {
          status = LID_EXIT_UNREAD;
          if (!json)
            lid_complain ("%s", error->message);
        }
      if (json)
        {
          lid_board_report_json (out, entry->path, board == NULL ? error->message : NULL, board,
                                 FALSE);
          g_string_append_c (out, '\n');
        }
      else if (board != NULL)
        add_row (&columns, board, entry->users);
    }
  if (json)
    g_ptr_array_unref (columns.cells);
  else
    lid_columns_finish (&columns, out, "");
  lid_output (out->str, (gssize)out->len);
  return status;
}

static LidExit
show_board (const char *id, gboolean json)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) board = lid_board_list_load (id, &error);
  g_autoptr (GString) out = g_string_new (NULL);
  gboolean missing = g_error_matches (error, LID_ERROR, LID_ERROR_NOT_FOUND);

  if (json)
    {
      lid_board_report_json (out, id, board == NULL ? error->message : NULL, board, TRUE);
      g_string_append_c (out, '\n');
    }
  else if (board != NULL)
    lid_board_report_text (out, board);
  else
    lid_complain ("%s", error->message);
  lid_output (out->str, (gssize)out->len);
  if (board != NULL)
    return LID_EXIT_DONE;
  return missing ? LID_EXIT_CALL : LID_EXIT_UNREAD;
}

/* Says what was taught, so that a slip is seen before the board is used. */
static LidExit
save_taught (const LidBoard *board, const char *source, gboolean json)
{
  g_autoptr (GString) out = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = lid_board_list_user_folder ();
  gboolean print = strcmp (out_path, "-") == 0;

  if (!print && !lid_board_file_save (board, out_path, &error))
    {
      lid_complain ("%s", error->message);
      return LID_EXIT_UNREAD;
    }
  if (json)
    {
      lid_board_report_json (out, source, NULL, board, FALSE);
      g_string_append_c (out, '\n');
    }
  else
    {
      lid_board_report_text (out, board);
      if (!print)
        g_string_append_printf (
            out,
            _ ("\nSaved as %s. “read --board %s” uses it; in %s it is found by itself for machines "
               "like this one.\n"),
            out_path, out_path, folder);
    }
  if (print)
    {
      g_autofree char *text = lid_board_file_to_text (board);

      lid_output (text, -1);
      lid_complain_raw (out->str);
    }
  else
    lid_output (out->str, (gssize)out->len);
  return LID_EXIT_DONE;
}

static LidExit
teach_board (const char *source, gboolean json)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidInventory) inventory = NULL;
  g_autoptr (GPtrArray) order = NULL;
  g_autoptr (LidBoard) board = NULL;
  LidTeachPattern pattern;

  if (!lid_teach_parse (teach, &pattern, &error))
    {
      lid_complain ("--teach: %s", error->message);
      return LID_EXIT_CALL;
    }
  inventory = lid_readers_read_path (source, &error);
  if (inventory == NULL)
    {
      lid_complain ("%s", error->message);
      return LID_EXIT_UNREAD;
    }
  lid_locators_place (inventory);
  if (!lid_teach_apply (inventory, &pattern, &order, &error))
    {
      lid_complain ("%s: %s", source, error->message);
      return LID_EXIT_CALL;
    }
  board = lid_board_teach (inventory, order, teach, strcmp (out_path, "-") != 0 ? out_path : NULL);
  return save_taught (board, source, json);
}

static void
report_page (const LidBoard *board, const GPtrArray *files, gboolean json)
{
  g_autoptr (GString) out = g_string_new (NULL);

  if (json)
    {
      lid_board_report_json (out, files->pdata[0], NULL, board, FALSE);
      g_string_append_c (out, '\n');
    }
  for (guint i = 0; i < files->len && !json; i++)
    g_string_append_printf (out, _ ("%s written\n"), (const char *)files->pdata[i]);
  lid_output (out->str, (gssize)out->len);
}

/* The board's page, for a person who has to check the definition. */
static LidExit
draw_page (const char *id, gboolean json)
{
  g_autoptr (GError) error = NULL;
  const LidExport *format = lid_export_find (out_path, &error);
  g_autoptr (LidBoard) board = format != NULL ? lid_board_list_load (id, &error) : NULL;
  g_autoptr (LidDrawText) text = NULL;
  g_autoptr (LidSheet) sheet = NULL;
  g_autoptr (GPtrArray) files = NULL;
  g_autoptr (GBytes) bytes = NULL;
  LidMeasure measure;

  if (board == NULL)
    {
      lid_complain ("%s", error->message);
      return format == NULL || g_error_matches (error, LID_ERROR, LID_ERROR_NOT_FOUND)
                 ? LID_EXIT_CALL
                 : LID_EXIT_UNREAD;
    }
  text = lid_draw_text_new (lid_theme_print ());
  measure = lid_draw_text_measure (text);
  sheet = lid_board_page_new (
      board, g_strcmp0 (paper_name, "letter") == 0 ? LID_PAPER_LETTER : LID_PAPER_A4, &measure);
  if (strcmp (out_path, "-") == 0)
    bytes = lid_export_bytes (format, text, sheet, 0, &error);
  else
    files = lid_export_files (format, text, sheet, out_path, &error);
  if (error != NULL)
    {
      lid_complain ("%s", error->message);
      return LID_EXIT_CALL;
    }
  if (bytes != NULL)
    lid_output (g_bytes_get_data (bytes, NULL), (gssize)g_bytes_get_size (bytes));
  else
    report_page (board, files, json);
  return LID_EXIT_DONE;
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  if (teach == NULL && !page && out_path != NULL)
    lid_complain ("%s", _ ("-o goes with --teach or --page"));
  else if (page && (teach != NULL || out_path == NULL || n_arguments != 1))
    lid_complain ("%s", _ ("--page needs -o FILE and one ID: a board's id or file"));
  else if (paper_name != NULL && !page)
    lid_complain ("%s", _ ("--paper goes with --page"));
  else if (paper_name != NULL && strcmp (paper_name, "a4") != 0
           && strcmp (paper_name, "letter") != 0)
    lid_complain (_ ("--paper takes a4 or letter, not “%s”"), paper_name);
  else if (teach != NULL && (out_path == NULL || n_arguments != 1))
    lid_complain ("%s", _ ("--teach needs -o FILE and one INPUT: a machine's inventory"));
  else if (n_arguments > 1)
    lid_complain ("%s", _ ("boards shows one board, or lists them all"));
  else if (page)
    return draw_page (arguments[0], json);
  else if (teach != NULL)
    return teach_board (arguments[0], json);
  else
    return n_arguments == 0 ? list_boards (json) : show_board (arguments[0], json);
  return LID_EXIT_CALL;
}

const LidCommand lid_command_boards = {
  .name = "boards",
  .arguments = N_ ("[ID | INPUT]"),
  .summary = N_ ("List the boards known, show one, or teach one"),
  .details = N_ ("ID is a board's id or file. With --teach, INPUT is the inventory of a machine "
                 "whose slot names do not tell its channels, sockets or order."),
  .entries = entries,
  .run = run,
};
