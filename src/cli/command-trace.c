/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "command.h"
#include "commands.h"
#include "failure.h"
#include "output.h"
#include "own-data.h"
#include "trace-report.h"

#include "job/job-open.h"
#include "trace/trace-note.h"

#include <glib/gi18n.h>
#include <string.h>

/* Of an input of which nothing can be told. */
static const char *const nulls[] = { "explanations", "next", "answer", NULL };

static gboolean did, back, eased, somewhere, clean, inconclusive;
static char **swaps, *out, *reseated, *exchange, *fault, *out_path;

static const GOptionEntry entries[] = {
  { "fault", 0, 0, G_OPTION_ARG_STRING, &fault,
    N_ ("Note a start with the fault, reported in these slots"), N_ ("SLOTS") },
  { "fault-somewhere", 0, 0, G_OPTION_ARG_NONE, &somewhere,
    N_ ("Note a start with the fault, nobody can tell in which slot"), NULL },
  { "clean", 0, 0, G_OPTION_ARG_NONE, &clean,
    N_ ("Note a start without the fault, three times as long as it usually takes"), NULL },
  { "inconclusive", 0, 0, G_OPTION_ARG_NONE, &inconclusive,
    N_ ("Note a start that was too short to tell"), NULL },
  { "did", 0, 0, G_OPTION_ARG_NONE, &did, N_ ("Before it, what was proposed last was done"), NULL },
  { "swap", 0, 0, G_OPTION_ARG_STRING_ARRAY, &swaps,
    N_ ("Before it, what is in two slots changed places; more than once"), "A1,B1" },
  { "out", 0, 0, G_OPTION_ARG_STRING, &out, N_ ("Before it, these slots were emptied"),
    N_ ("SLOTS") },
  { "reseat", 0, 0, G_OPTION_ARG_STRING, &reseated,
    N_ ("Before it, what is in these slots was seated again"), N_ ("SLOTS") },
  { "exchange", 0, 0, G_OPTION_ARG_STRING, &exchange,
    N_ ("Before it, the processors of two sockets changed places"), "1,2" },
  { "back", 0, 0, G_OPTION_ARG_NONE, &back,
    N_ ("Before it, all was put back as at the first start with the fault"), NULL },
  { "eased", 0, 0, G_OPTION_ARG_NONE, &eased,
    N_ ("It ran a rate step lower, or with the setup's defaults"), NULL },
  { "output", 'o', 0, G_OPTION_ARG_FILENAME, &out_path, N_ ("Save the job with what was noted"),
    N_ ("JOB") },
  G_OPTION_ENTRY_NULL,
};

static gboolean
is_done (void)
{
  return did || back || eased || swaps != NULL || out != NULL || reseated != NULL
         || exchange != NULL;
}

static gboolean
is_call_right (int n_arguments, guint n_outcomes)
{
  if (n_arguments != 1)
    lid_complain ("%s", _ ("trace takes one job"));
  else if (n_outcomes > 1)
    lid_complain ("%s", _ ("a start shows one thing: --fault, --fault-somewhere, --clean or "
                           "--inconclusive"));
  else if (n_outcomes == 0 && is_done ())
    lid_complain ("%s", _ ("say what that start showed: --fault, --fault-somewhere, --clean or "
                           "--inconclusive"));
  else if (n_outcomes == 1 && out_path == NULL)
    lid_complain ("%s", _ ("what is noted has to be kept: say with -o in which job"));
  else if (n_outcomes == 0 && out_path != NULL)
    lid_complain ("%s", _ ("nothing is noted, so there is nothing to save with -o"));
  else if (did && (back || swaps != NULL || out != NULL))
    lid_complain ("%s", _ ("--did is what was proposed and nothing else"));
  else
    return TRUE;
  return FALSE;
}

static gboolean
note (LidJob *job, GError **error)
{
  LidTrialNote told = { did,      back,  (const char *const *)swaps, out,  reseated,
                        exchange, eased, LID_OUTCOME_INCONCLUSIVE,   fault };

  if (fault != NULL || somewhere)
    told.outcome = LID_OUTCOME_FAULT;
  else if (clean)
    told.outcome = LID_OUTCOME_CLEAN;
  return lid_trace_note (job, &told, error) && lid_output_job (job, out_path, error);
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (GError) error = NULL;
  g_autoptr (LidTrace) trace = NULL;
  g_autoptr (GString) text = g_string_new (NULL);
  guint n_outcomes
      = (fault != NULL) + (somewhere != FALSE) + (clean != FALSE) + (inconclusive != FALSE);

  if (!is_call_right (n_arguments, n_outcomes))
    return LID_EXIT_CALL;
  if (!lid_job_open (arguments[0], NULL, lid_own_parts (), &opened, &error))
    return lid_failure (arguments[0], error->message, nulls, json, LID_EXIT_UNREAD);
  if (n_outcomes == 1 && !note (opened.job, &error))
    return lid_failure (arguments[0], error->message, nulls, json, LID_EXIT_CALL);
  trace = lid_trace_new (opened.job);
  if (json)
    lid_trace_report_json (text, arguments[0], opened.job->board, trace);
  else
    lid_trace_report_text (text, arguments[0], trace);
  if (g_strcmp0 (out_path, "-") == 0)
    lid_complain_raw (text->str);
  else
    lid_output (text->str, (gssize)text->len);
  return LID_EXIT_DONE;
}

const LidCommand lid_command_trace = {
  .name = "trace",
  .arguments = N_ ("JOB"),
  .summary = N_ ("Find the culprit: what the starts noted tell, and which start tells most next"),
  .details = N_ (
      "A fault that goes along with a module is the module's; one that stays with the slot is the "
      "slot's or lies behind it. Note each start with what was done before it and what it showed, "
      "and save the job with -o: what it can still be is told, and the one change that tells most "
      "of it. No change is proposed that the checker stops, or that ends a memory mode."),
  .entries = entries,
  .run = run,
};
