/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-report.h"
#include "command.h"
#include "commands.h"
#include "explain-report.h"
#include "failure.h"
#include "output.h"
#include "own-data.h"
#include "stage-option.h"

#include "base/text.h"
#include "board/board-newer.h"
#include "job/job-open.h"
#include "job/tray.h"

#include <glib/gi18n.h>

static char *of_word, *board_name, *explain;
static int stage;

static const GOptionEntry entries[] = {
  { "of", 0, 0, G_OPTION_ARG_STRING, &of_word, N_ ("Which population to check"),
    "as-found|planned|as-left" },
  LID_STAGE_OPTION_ENTRY (&stage),
  { "board", 0, 0, G_OPTION_ARG_STRING, &board_name, N_ ("Read inventories with this board"),
    N_ ("ID|FILE") },
  { "explain", 0, 0, G_OPTION_ARG_STRING, &explain,
    N_ ("Say why a finding's rule speaks, and what clears it"), N_ ("RULE") },
  G_OPTION_ENTRY_NULL,
};

/* Without --of: planned, or as found where nothing is planned. */
static LidOf
choose (const LidJob *job, LidOf wanted)
{
  if (wanted != LID_N_OF)
    return wanted;
  return lid_job_get_population (job, LID_PLANNED) != NULL ? LID_PLANNED : LID_AS_FOUND;
}

/* A job keeps the board it was made with; nothing is exchanged silently. */
static void
tell_newer_board (const LidBoard *board)
{
  g_autoptr (GPtrArray) differences = NULL;
  g_autoptr (LidBoard) newer = lid_board_newer_find (board, &differences);
  g_autofree char *names = NULL;

  if (newer == NULL)
    return;
  names = lid_text_join ((const char *const *)differences->pdata, differences->len, 8);
  lid_complain (
      _ ("the board %s is defined anew (version %u; the job holds version %u); it differs "
         "in: %s"),
      board->id, newer->version, board->version, names);
}

/* A stage is what is planned, once the later ones are put aside. */
static gboolean
take_stage (LidJob *job, const char *source, gboolean json)
{
  g_autofree char *why = NULL, *reason = NULL;
  const LidPopulation *from, *to;

  if (lid_stage_option_find (job, stage, &from, &to, &why))
    {
      g_ptr_array_set_size (job->stages, stage);
      return TRUE;
    }
  reason = g_strdup_printf ("%s: %s", source, why);
  lid_failure (source, reason, NULL, json, LID_EXIT_UNREAD);
  return FALSE;
}

static LidExit
check_one (const char *source, const LidBoard *board, LidOf wanted, gboolean json)
{
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (GError) error = NULL;
  g_autoptr (LidAssessment) assessment = NULL;
  g_autoptr (GPtrArray) tray = NULL;
  g_autoptr (GString) text = g_string_new (NULL);
  const LidPopulation *population;
  LidOf of;

  if (!lid_job_open (source, board, lid_own_parts (), &opened, &error))
    {
      lid_failure (source, error->message, NULL, json, LID_EXIT_UNREAD);
      return LID_EXIT_UNREAD;
    }
  if (stage != 0 && !take_stage (opened.job, source, json))
    return LID_EXIT_CALL;
  of = choose (opened.job, wanted);
  population = lid_job_get_population (opened.job, of);
  if (population == NULL)
    {
      g_autofree char *reason
          = g_strdup_printf (_ ("%s: the job holds no such population (%s); leave --of away to "
                                "check what it holds"),
                             source, lid_of_to_text (of));
      lid_failure (source, reason, NULL, json, LID_EXIT_UNREAD);
      return LID_EXIT_CALL;
    }
  if (!json)
    tell_newer_board (opened.job->board);
  tray = lid_tray_modules (opened.job, of);
  assessment = lid_assessment_new_at_hand (
      &(LidQuestion){ opened.job->board, population, opened.job->as_found }, tray);
  if (json)
    lid_check_report_json (text, source, opened.job, of, assessment);
  else
    lid_check_report_text (text, source, opened.job, of, assessment);
  lid_output (text->str, (gssize)text->len);
  return lid_assessment_worst (assessment) == LID_GRADE_STOPS ? LID_EXIT_STOPS : LID_EXIT_DONE;
}

/* What could not be read weighs most, then a wrong call, then what stops. */
static LidExit
worse (LidExit a, LidExit b)
{
  static const int weight[] = {
    [LID_EXIT_DONE] = 0,
    [LID_EXIT_STOPS] = 1,
    [LID_EXIT_CALL] = 2,
    [LID_EXIT_UNREAD] = 3,
  };

  return weight[a] >= weight[b] ? a : b;
}

static LidExit
explain_rule (gboolean json)
{
  g_autoptr (GString) out = g_string_new (NULL);
  gboolean ok = lid_explain_report (out, explain, json);

  lid_output (out->str, (gssize)out->len);
  return ok ? LID_EXIT_DONE : LID_EXIT_CALL;
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_autoptr (LidBoard) board = NULL;
  LidExit status = LID_EXIT_DONE;
  LidOf of = LID_N_OF;
  gboolean found = TRUE;

  if (explain != NULL && n_arguments == 0)
    return explain_rule (json);
  if (explain != NULL)
    {
      lid_complain ("%s", _ ("--explain stands alone, without a job or an inventory"));
      return LID_EXIT_CALL;
    }
  if (n_arguments == 0)
    {
      lid_complain ("%s", _ ("check needs a job or an inventory: a file, a folder or -"));
      return LID_EXIT_CALL;
    }
  if (of_word != NULL)
    of = lid_of_from_text (of_word, &found);
  if (!found)
    {
      lid_complain (_ ("--of takes as-found, planned or as-left, not “%s”"), of_word);
      return LID_EXIT_CALL;
    }
  if (stage != 0 && of != LID_N_OF && of != LID_PLANNED)
    {
      lid_complain ("%s", _ ("--stage shows what is planned; leave --of out, or say --of planned"));
      return LID_EXIT_CALL;
    }
  if (!lid_own_board (board_name, &board))
    return LID_EXIT_CALL;
  for (int i = 0; i < n_arguments; i++)
    {
      if (i > 0 && !json)
        lid_output ("\n", 1);
      status = worse (status, check_one (arguments[i], board, of, json));
    }
  return status;
}

const LidCommand lid_command_check = {
  .name = "check",
  .arguments = N_ ("JOB|INPUT…"),
  .summary = N_ ("Say what stops, loses or is unsure, and the figures"),
  .details
  = N_ ("A population is judged as a whole: findings worst first, with slots and what to do, "
        "then capacity, rate with its limits, and bandwidth by a model. Without --of: what "
        "is planned, or what was found where nothing is planned. Exit status 3 where "
        "something stops."),
  .entries = entries,
  .run = run,
};
