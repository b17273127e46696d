/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "command.h"
#include "commands.h"
#include "failure.h"
#include "output.h"
#include "own-data.h"
#include "stage-option.h"
#include "steps-report.h"

#include "base/save.h"
#include "checks/assessment.h"
#include "drawing/export.h"
#include "drawing/sheet-lists.h"
#include "job/job-open.h"

#include <glib/gi18n.h>
#include <string.h>

/* Of an input of which nothing can be told. */
static const char *const nulls[] = { "steps", NULL };

static char *list_name, *to_name, *paper_name, *out_path;
static int stage;

static const GOptionEntry entries[] = {
  LID_STAGE_OPTION_ENTRY (&stage),
  { "list", 0, 0, G_OPTION_ARG_STRING, &list_name,
    N_ ("A list instead of the steps: pick, what to fetch; pull, what comes out; tags, one a bag"),
    "pick|pull|tags" },
  { "to", 0, 0, G_OPTION_ARG_STRING, &to_name,
    N_ ("Where modules go that leave the machine (default: owner)"), "owner|stock" },
  { "paper", 0, 0, G_OPTION_ARG_STRING, &paper_name, N_ ("Paper of a list (default: a4)"),
    "a4|letter" },
  { "output", 'o', 0, G_OPTION_ARG_FILENAME, &out_path,
    N_ ("Where the list goes: .csv, .pdf, .svg or .png; - writes CSV to standard output"),
    N_ ("FILE") },
  G_OPTION_ENTRY_NULL,
};

/* What was asked for, checked. */
typedef struct
{
  gboolean list;
  LidListKind kind;
  LidPulledTo to;
  LidPaper paper;
} Call;

/* One of @words, NULL-terminated; its place, or -1 after a complaint. */
static int
find_word (const char *option, const char *word, const char *const *words)
{
  g_autofree char *all = NULL;

  if (word == NULL)
    return 0;
  for (int i = 0; words[i] != NULL; i++)
    if (strcmp (words[i], word) == 0)
      return i;
  all = g_strjoinv (", ", (char **)words);
  lid_complain (_ ("%s takes one of these words: %s; not “%s”"), option, all, word);
  return -1;
}

static gboolean
read_call (Call *call)
{
  static const char *const lists[] = { "pick", "pull", "tags", NULL };
  static const char *const tos[] = { "owner", "stock", NULL };
  static const char *const papers[] = { "a4", "letter", NULL };
  int list = find_word ("--list", list_name, lists), to = find_word ("--to", to_name, tos),
      paper = find_word ("--paper", paper_name, papers);

  if (list < 0 || to < 0 || paper < 0)
    return FALSE;
  *call = (Call){ list_name != NULL, (LidListKind)list, (LidPulledTo)to, (LidPaper)paper };
  if (call->list == (out_path != NULL))
    return TRUE;
  lid_complain ("%s", call->list
                          ? _ ("--list needs a place to write to: -o FILE.csv, .pdf, .svg "
                               "or .png, or -o -")
                          : _ ("-o writes a list: say which with --list pick, pull or tags"));
  return FALSE;
}

static LidExit
write_drawn (const LidChangeoverList *list,
             const LidJob *job,
             const Call *call,
             const char *source,
             gboolean json)
{
  g_autoptr (GError) error = NULL;
  const LidExport *format = lid_export_find (out_path, &error);
  g_autoptr (LidDrawText) text = NULL;
  g_autoptr (LidSheet) sheet = NULL;
  g_autoptr (GPtrArray) files = NULL;
  LidMeasure measure;

  if (format == NULL)
    return lid_failure (source, error->message, nulls, json, LID_EXIT_CALL);
  text = lid_draw_text_new (lid_theme_print ());
  measure = lid_draw_text_measure (text);
  sheet = lid_sheet_lists_new (job, list, call->paper, &measure);
  files = lid_export_files (format, text, sheet, out_path, &error);
  if (files == NULL)
    return lid_failure (source, error->message, nulls, json, LID_EXIT_CALL);
  lid_steps_report_files (source, list, files, json);
  return LID_EXIT_DONE;
}

static LidExit
write_list (const LidChangeover *changeover,
            const LidJob *job,
            const Call *call,
            const char *source,
            gboolean json)
{
  g_autoptr (LidChangeoverList) list
      = lid_changeover_list_new (changeover, job, call->kind, call->to);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) files = NULL;
  g_autofree char *csv = NULL;

  if (strcmp (out_path, "-") != 0 && !g_str_has_suffix (out_path, ".csv"))
    return write_drawn (list, job, call, source, json);
  csv = lid_changeover_list_to_csv (list);
  if (strcmp (out_path, "-") == 0)
    {
      lid_output (csv, -1);
      return LID_EXIT_DONE;
    }
  if (!lid_save_bytes (out_path, csv, strlen (csv), 0666, &error))
    return lid_failure (source, error->message, nulls, json, LID_EXIT_CALL);
  files = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (files, g_strdup (out_path));
  lid_steps_report_files (source, list, files, json);
  return LID_EXIT_DONE;
}

static LidExit
run_job (const LidJob *job, const char *source, const Call *call, gboolean json)
{
  g_autoptr (LidAssessment) assessment = NULL;
  g_autoptr (LidChangeover) changeover = NULL;
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *reason = NULL;
  const LidPopulation *from, *to;

  if (!lid_stage_option_find (job, stage, &from, &to, &reason))
    return lid_failure (source, reason, nulls, json, LID_EXIT_CALL);
  assessment = lid_assessment_new (&(LidQuestion){ job->board, to, job->as_found });
  changeover = lid_changeover_new (job->board, from, to, &assessment->figures);
  if (call->list)
    return write_list (changeover, job, call, source, json);
  if (json)
    lid_steps_report_json (out, source, changeover, assessment);
  else
    lid_steps_report_text (out, source, changeover, assessment);
  lid_output (out->str, (gssize)out->len);
  return LID_EXIT_DONE;
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (GError) error = NULL;
  Call call;

  if (n_arguments != 1)
    {
      lid_complain ("%s", _ ("steps takes one job"));
      return LID_EXIT_CALL;
    }
  if (!read_call (&call))
    return LID_EXIT_CALL;
  if (!lid_job_open (arguments[0], NULL, lid_own_parts (), &opened, &error))
    return lid_failure (arguments[0], error->message, nulls, json, LID_EXIT_UNREAD);
  return run_job (opened.job, arguments[0], &call, json);
}

const LidCommand lid_command_steps = {
  .name = "steps",
  .arguments = N_ ("JOB"),
  .summary = N_ ("Say step by step how to get from what was found to what is planned"),
  .details = N_ (
      "Firmware first, with the old modules in; then all pulls, each to its numbered place on the "
      "mat; processors; blanks; all fits in the board's order; settings; what to read at the end. "
      "As few modules as possible are touched, and cautions stand where the hands are. A module "
      "that holds data is pulled only with the owner's written release. Of a job in stages, "
      "--stage "
      "N tells the steps of that stage alone; without it, those of the last from what was found."),
  .entries = entries,
  .run = run,
};
