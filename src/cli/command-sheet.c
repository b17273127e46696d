/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "command.h"
#include "commands.h"
#include "failure.h"
#include "json-line.h"
#include "output.h"
#include "own-data.h"
#include "stage-option.h"

#include "base/json-write.h"
#include "checks/assessment.h"
#include "drawing/export.h"
#include "drawing/sheet-layout.h"
#include "job/job-open.h"

#include <glib/gi18n.h>
#include <stdio.h>
#include <string.h>

/* Of an input of which nothing can be told. */
static const char *const nulls[] = { "file", "pages", NULL };

static char *what_name, *paper_name, *out_path;
static gboolean sideways, half;
static int stage;

static const GOptionEntry entries[] = {
  { "for", 0, 0, G_OPTION_ARG_STRING, &what_name,
    N_ ("Which sheet: bench, to work by (default); lid, to stay in the machine; balance, to "
        "explain before and after to the owner"),
    N_ ("bench|lid|balance") },
  { "paper", 0, 0, G_OPTION_ARG_STRING, &paper_name, N_ ("Paper (default: a4)"), N_ ("a4|letter") },
  { "sideways", 0, 0, G_OPTION_ARG_NONE, &sideways, N_ ("The long side across"), NULL },
  LID_STAGE_OPTION_ENTRY (&stage),
  { "half", 0, 0, G_OPTION_ARG_NONE, &half, N_ ("On half a page"), NULL },
  { "output", 'o', 0, G_OPTION_ARG_FILENAME, &out_path,
    N_ ("Where to: .pdf, .svg or .png; - writes a PDF to standard output"), N_ ("FILE") },
  G_OPTION_ENTRY_NULL,
};

static gboolean
read_options (LidSheetOptions *options)
{
  static const char *const names[LID_N_SHEETS]
      = { [LID_SHEET_BENCH] = "bench", [LID_SHEET_LID] = "lid", [LID_SHEET_BALANCE] = "balance" };

  *options = (LidSheetOptions){ .sideways = sideways, .half = half };
  while (what_name != NULL && options->what < LID_N_SHEETS
         && strcmp (what_name, names[options->what]) != 0)
    options->what++;
  if (options->what == LID_N_SHEETS)
    {
      lid_complain (_ ("--for takes bench, lid or balance, not “%s”"), what_name);
      return FALSE;
    }
  if (half && options->what == LID_SHEET_BALANCE)
    {
      lid_complain (_ ("the balance page takes a whole page; leave --half out"));
      return FALSE;
    }
  if (stage != 0 && options->what == LID_SHEET_BALANCE)
    {
      lid_complain (_ ("the balance page shows as found beside the whole plan; leave --stage out"));
      return FALSE;
    }
  if (paper_name != NULL && strcmp (paper_name, "a4") != 0 && strcmp (paper_name, "letter") != 0)
    {
      lid_complain (_ ("--paper takes a4 or letter, not “%s”"), paper_name);
      return FALSE;
    }
  if (g_strcmp0 (paper_name, "letter") == 0)
    options->paper = LID_PAPER_LETTER;
  return TRUE;
}

static void
report (const char *source, const LidSheet *sheet, const GPtrArray *files, gboolean json)
{
  g_autoptr (GString) text = g_string_new (NULL);
  LidJsonWriter writer;

  if (!json)
    {
      for (guint i = 0; i < files->len; i++)
        lid_output_line (_ ("%s written"), (const char *)files->pdata[i]);
      return;
    }
  lid_json_line_open (&writer, text, source, NULL);
  lid_json_line_file (&writer, "file", files->pdata[0]);
  lid_json_write_int (&writer, "pages", sheet->pages->len);
  lid_json_write_open (&writer, "files", '[');
  for (guint i = 0; i < files->len; i++)
    lid_json_line_file (&writer, NULL, files->pdata[i]);
  lid_json_write_close (&writer, ']');
  lid_json_line_close (&writer);
  lid_output (text->str, (gssize)text->len);
}

static LidAssessment *
assess (const LidJob *job, LidSheetFor what)
{
  LidQuestion question = { .board = job->board, .as_found = job->as_found };

  question.population = stage > 0
                            ? ((LidStage *)job->stages->pdata[stage - 1])->population
                            : lid_job_get_population (job, lid_sheet_layout_shows (job, what));
  return question.population != NULL ? lid_assessment_new (&question) : NULL;
}

/* "-o -": the PDF is what standard output is for. */
static LidExit
write_out (const LidExport *format,
           LidDrawText *text,
           const LidSheet *sheet,
           const char *source,
           gboolean json)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) files = NULL;
  g_autoptr (GBytes) bytes = NULL;

  if (strcmp (out_path, "-") != 0)
    {
      files = lid_export_files (format, text, sheet, out_path, &error);
      if (files == NULL)
        return lid_failure (source, error->message, nulls, json, LID_EXIT_CALL);
      report (source, sheet, files, json);
      return LID_EXIT_DONE;
    }
  bytes = lid_export_bytes (format, text, sheet, 0, &error);
  if (bytes == NULL)
    return lid_failure (source, error->message, nulls, json, LID_EXIT_CALL);
  lid_output (g_bytes_get_data (bytes, NULL), (gssize)g_bytes_get_size (bytes));
  return LID_EXIT_DONE;
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_autoptr (GError) error = NULL;
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (LidAssessment) assessment = NULL;
  g_autoptr (LidDrawText) text = NULL;
  g_autoptr (LidSheet) sheet = NULL;
  g_autofree char *why = NULL;
  const LidPopulation *from, *to;
  const LidExport *format;
  LidSheetOptions options;
  LidMeasure measure;

  if (!read_options (&options))
    return LID_EXIT_CALL;
  if (n_arguments != 1 || out_path == NULL)
    {
      lid_complain ("%s", out_path == NULL
                              ? _ ("sheet needs a place to write to: -o FILE.pdf, .svg or .png")
                              : _ ("sheet takes one job or inventory"));
      return LID_EXIT_CALL;
    }
  format = lid_export_find (out_path, &error);
  if (format == NULL)
    return lid_failure (arguments[0], error->message, nulls, json, LID_EXIT_CALL);
  if (!lid_job_open (arguments[0], NULL, lid_own_parts (), &opened, &error))
    return lid_failure (arguments[0], error->message, nulls, json, LID_EXIT_UNREAD);
  if (opened.job->board->n_slots == 0)
    return lid_failure (arguments[0],
                        _ ("the input names no memory slot, so there is nothing to draw"), nulls,
                        json, LID_EXIT_UNREAD);
  if (stage != 0 && !lid_stage_option_find (opened.job, stage, &from, &to, &why))
    return lid_failure (arguments[0], why, nulls, json, LID_EXIT_CALL);
  assessment = assess (opened.job, options.what);
  text = lid_draw_text_new (lid_theme_print ());
  measure = lid_draw_text_measure (text);
  sheet = lid_sheet_layout_new_stage (opened.job, (guint)stage, assessment, &options, &measure);
  return write_out (format, text, sheet, arguments[0], json);
}

const LidCommand lid_command_sheet = {
  .name = "sheet",
  .arguments = N_ ("JOB|INPUT"),
  .summary
  = N_ ("Draw the page to work by, the page that stays in the lid, or the one for the owner"),
  .details = N_ (
      "The bench sheet shows the planned population, or as found where nothing is planned. The lid "
      "sheet shows as left; else planned or as found, and is stamped so. The balance page shows as "
      "found beside planned, always on one page. SVG and PNG hold one page "
      "a file: several are numbered FILE-1, FILE-2."),
  .entries = entries,
  .run = run,
};
