/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "command.h"
#include "commands.h"
#include "json-line.h"
#include "output.h"
#include "own-data.h"
#include "read-report.h"

#include "job/job-open.h"

#include <glib/gi18n.h>
#include <string.h>

static char *board_name, *out_path;

static const GOptionEntry entries[] = {
  { "board", 0, 0, G_OPTION_ARG_STRING, &board_name, N_ ("Read with this board"), N_ ("ID|FILE") },
  { "output", 'o', 0, G_OPTION_ARG_FILENAME, &out_path, N_ ("Save one machine as a job"),
    N_ ("JOB") },
  G_OPTION_ENTRY_NULL,
};

/* With "-o -" the job itself is what standard output is for. */
static void
report (const char *text, gboolean to_error)
{
  if (to_error)
    lid_complain_raw (text);
  else
    lid_output (text, -1);
}

static LidExit
save (const LidJob *job)
{
  g_autoptr (GError) error = NULL;

  if (job->board->n_slots == 0)
    {
      lid_complain ("%s", _ ("the input names no memory slot, so there is no job to save"));
      return LID_EXIT_UNREAD;
    }
  if (lid_output_job (job, out_path, &error))
    return LID_EXIT_DONE;
  lid_complain ("%s", error->message);
  return LID_EXIT_CALL;
}

static LidExit
read_one (const char *source, const LidBoard *board, gboolean json, GString *text)
{
  g_autoptr (GError) error = NULL;
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  gboolean to_error = out_path != NULL && strcmp (out_path, "-") == 0;
  gboolean done = lid_job_open_inventory (source, board, lid_own_parts (), &opened, &error);

  g_string_truncate (text, 0);
  if (!done && !json)
    {
      lid_complain ("%s", error->message);
      return LID_EXIT_UNREAD;
    }
  if (!done)
    lid_json_line_failure (text, source, error->message);
  else if (json)
    lid_read_report_json (text, opened.inventory, opened.match);
  else
    lid_read_report_text (text, opened.inventory, opened.match);
  report (text->str, to_error);
  if (!done)
    return LID_EXIT_UNREAD;
  return out_path != NULL ? save (opened.job) : LID_EXIT_DONE;
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_autoptr (GString) text = g_string_sized_new (16384);
  g_autoptr (LidBoard) board = NULL;
  LidExit status = LID_EXIT_DONE;

  if (n_arguments == 0 || (out_path != NULL && n_arguments > 1))
    {
      lid_complain ("%s", n_arguments == 0 ? _ ("read needs an inventory: a file, a folder or -")
                                           : _ ("-o takes one machine; name one inventory"));
      return LID_EXIT_CALL;
    }
  if (!lid_own_board (board_name, &board))
    return LID_EXIT_CALL;
  for (int i = 0; i < n_arguments; i++)
    {
      LidExit one;

      if (i > 0 && !json)
        lid_output ("\n", 1);
      one = read_one (arguments[i], board, json, text);
      status = MAX (status, one);
    }
  return status;
}

const LidCommand lid_command_read = {
  .name = "read",
  .arguments = N_ ("INPUT…"),
  .summary = N_ ("Read what memory a machine reports"),
  .details
  = N_ ("INPUT is a binary table (one file, or the folder with the kernel's two files), the "
        "bare table, or the text report of it. What it is, is found out."),
  .entries = entries,
  .run = run,
};
