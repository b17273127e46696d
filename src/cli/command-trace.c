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

static gboolean did, back, eased, somewhere, clean, inconclusive, anew, forget_last;
static char **faults, **swaps, *out, *reseated, *replaced, *exchange, *out_path;

static const GOptionEntry entries[] = {
  { "fault", 0, 0, G_OPTION_ARG_STRING_ARRAY, &faults,
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
  { "replaced", 0, 0, G_OPTION_ARG_STRING, &replaced,
    N_ ("Before it, what is in these slots was replaced by others of the kind"), N_ ("SLOTS") },
  { "exchange", 0, 0, G_OPTION_ARG_STRING, &exchange,
    N_ ("Before it, the processors of two sockets changed places"), "1,2" },
  { "back", 0, 0, G_OPTION_ARG_NONE, &back,
    N_ ("Before it, all was put back as at the first start with the fault"), NULL },
  { "eased", 0, 0, G_OPTION_ARG_NONE, &eased,
    N_ ("It ran a rate step lower, or with the setup's defaults"), NULL },
  { "new", 0, 0, G_OPTION_ARG_NONE, &anew,
    N_ ("The search is over; with a start, it is the first of another"), NULL },
  { "forget-last", 0, 0, G_OPTION_ARG_NONE, &forget_last,
    N_ ("The start noted last was noted wrongly: forget it, then note what else is said"), NULL },
  { "output", 'o', 0, G_OPTION_ARG_FILENAME, &out_path, N_ ("Save the job with what was noted"),
    N_ ("JOB") },
  G_OPTION_ENTRY_NULL,
};

static gboolean
is_done (void)
{
  return did || back || eased || swaps != NULL || out != NULL || reseated != NULL
         || replaced != NULL || exchange != NULL;
}

static gboolean
is_changed (guint n_outcomes)
{
  return n_outcomes == 1 || anew || forget_last;
}

static const char *
find_wrong (int n_arguments, guint n_outcomes)
{
  if (n_arguments != 1)
    return _ ("trace takes one job");
  if (n_outcomes > 1)
    return _ ("a start shows one thing: --fault, --fault-somewhere, --clean or --inconclusive");
  if (faults != NULL && faults[1] != NULL)
    return _ ("--fault is said once, with commas between the slots of one start");
  if (n_outcomes == 0 && is_done ())
    return _ ("say what that start showed: --fault, --fault-somewhere, --clean or --inconclusive");
  if (is_changed (n_outcomes) && out_path == NULL)
    return _ ("what is noted has to be kept: say with -o in which job");
  if (!is_changed (n_outcomes) && out_path != NULL)
    return _ ("nothing is noted, so there is nothing to save with -o");
  if (did && (back || swaps != NULL || out != NULL || replaced != NULL))
    return _ ("--did is what was proposed and nothing else");
  if (did && anew)
    return _ ("--did goes on with the search and --new begins another");
  return NULL;
}

static gboolean
note (LidJob *job, guint n_outcomes, GError **error)
{
  LidTrialNote told = { .did_next = did,
                        .back = back,
                        .anew = anew,
                        .swaps = (const char *const *)swaps,
                        .out = out,
                        .reseated = reseated,
                        .replaced = replaced,
                        .exchange = exchange,
                        .eased = eased,
                        .outcome = LID_OUTCOME_INCONCLUSIVE,
                        .at = faults != NULL ? faults[0] : NULL };

  if (faults != NULL || somewhere)
    told.outcome = LID_OUTCOME_FAULT;
  else if (clean)
    told.outcome = LID_OUTCOME_CLEAN;
  if (forget_last && !lid_trace_forget_last (job, error))
    return FALSE;
  if (n_outcomes == 1 && !lid_trace_note (job, &told, error))
    return FALSE;
  return n_outcomes == 1 || !anew || lid_trace_end (job, error);
}

/* The job to go on with is the one that was saved. */
static const char *
kept_in (const char *source)
{
  return out_path != NULL && strcmp (out_path, "-") != 0 ? out_path : source;
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (GError) error = NULL;
  g_autoptr (LidTrace) trace = NULL;
  g_autoptr (GString) text = g_string_new (NULL);
  guint n_outcomes
      = (faults != NULL) + (somewhere != FALSE) + (clean != FALSE) + (inconclusive != FALSE);
  const char *wrong = find_wrong (n_arguments, n_outcomes);

  if (wrong != NULL)
    {
      lid_complain ("%s", wrong);
      return LID_EXIT_CALL;
    }
  if (!lid_job_open (arguments[0], NULL, lid_own_parts (), &opened, &error))
    return lid_failure (arguments[0], error->message, nulls, json, LID_EXIT_UNREAD);
  if (is_changed (n_outcomes)
      && (!note (opened.job, n_outcomes, &error) || !lid_output_job (opened.job, out_path, &error)))
    return lid_failure (arguments[0], error->message, nulls, json, LID_EXIT_CALL);
  trace = lid_trace_new (opened.job);
  if (json)
    lid_trace_report_json (text, arguments[0], opened.job->board, trace);
  else
    lid_trace_report_text (text, arguments[0], kept_in (arguments[0]), trace);
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
      "of it. No change is proposed that the checker stops, or that ends a memory mode. A start "
      "noted "
      "wrongly is taken back with --forget-last. A search is over once prove finds all as planned, "
      "or "
      "with --new."),
  .entries = entries,
  .run = run,
};
