/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "command.h"
#include "commands.h"
#include "failure.h"
#include "json-line.h"
#include "output.h"
#include "own-data.h"
#include "stock-options.h"

#include "base/json-write.h"
#include "changeover/stage-parts.h"
#include "changeover/stages.h"
#include "checks/assessment.h"
#include "job/changes.h"
#include "job/job-open.h"
#include "planner/plan-shelf.h"

#include <glib/gi18n.h>
#include <string.h>

/* Of an input of which nothing can be told. */
static const char *const nulls[] = { "stages", NULL };

static char **missing_words;
static char *out_path, *stock_path;
static gboolean tonight_only;

static const GOptionEntry entries[] = {
  { "missing", 0, 0, G_OPTION_ARG_STRING_ARRAY, &missing_words,
    N_ ("A part number of the plan that is not there, =N: so many of it; may be given again "
        "(default: all that has to be bought)"),
    N_ ("PART[=N]") },
  { "stock", 0, 0, G_OPTION_ARG_FILENAME, &stock_path,
    N_ ("What is not on this shelf for the job is missing: see the command stock"), "CSV" },
  LID_STOCK_OPTION_ENTRIES,
  { "tonight-only", 0, 0, G_OPTION_ARG_NONE, &tonight_only,
    N_ ("The job saved holds what is done tonight as its whole plan"), NULL },
  { "output", 'o', 0, G_OPTION_ARG_FILENAME, &out_path,
    N_ ("Split the plan into tonight and later, and save the job there"), N_ ("JOB") },
  G_OPTION_ENTRY_NULL,
};

static LidStagePart *
find_part (const GPtrArray *parts, const char *name)
{
  for (guint i = 0; i < parts->len; i++)
    {
      LidStagePart *part = parts->pdata[i];

      if (g_strcmp0 (part->part, name) == 0
          || (part->part == NULL && strcmp (part->words, name) == 0))
        return part;
    }
  return NULL;
}

/* "PART" or "PART=N". */
static gboolean
read_missing (const GPtrArray *parts, const char *word)
{
  const char *sign = strrchr (word, '=');
  g_autofree char *name = sign != NULL ? g_strndup (word, (gsize)(sign - word)) : g_strdup (word);
  LidStagePart *part = find_part (parts, name);
  guint64 most = G_MAXUINT;

  if (sign != NULL && !g_ascii_string_to_unsigned (sign + 1, 10, 1, 9999, &most, NULL))
    {
      lid_complain (_ ("--missing takes PART or PART=N with N from 1 to 9999, not “%s”"), word);
      return FALSE;
    }
  if (part == NULL)
    {
      lid_complain (_ ("--missing: the plan brings no module of the part “%s”"), name);
      return FALSE;
    }
  part->missing = (guint)MIN (most, part->modules->len);
  return TRUE;
}

static gboolean
read_stock (const LidJob *job, GPtrArray *parts, GError **error)
{
  g_autofree char *whose = lid_plan_shelf_job (job);
  g_autoptr (LidStock) stock = NULL;
  LidStockOptions options;

  if (stock_path == NULL)
    return TRUE;
  if (!lid_stock_options_read (&options))
    return FALSE;
  stock = lid_reserved_read_stock (stock_path, &options, whose, error);
  if (stock == NULL)
    return FALSE;
  lid_stock_options_complain (stock_path, stock);
  lid_stage_parts_use_stock (parts, stock);
  return TRUE;
}

/* What of the plan is not there: as the job knows, as the shelf says, as the command line says, the
 * later word over the one before. NULL: see @status, after a complaint or with @error. */
static GPtrArray *
ask_parts (const LidJob *job, GError **error, LidExit *status)
{
  g_autoptr (GPtrArray) parts = lid_stage_parts_new (job);

  *status = LID_EXIT_CALL;
  if (!read_stock (job, parts, error))
    {
      *status = *error != NULL ? LID_EXIT_UNREAD : LID_EXIT_CALL;
      return NULL;
    }
  for (guint i = 0; missing_words != NULL && stock_path == NULL && i < parts->len; i++)
    ((LidStagePart *)parts->pdata[i])->missing = 0;
  for (guint i = 0; missing_words != NULL && missing_words[i] != NULL; i++)
    if (!read_missing (parts, missing_words[i]))
      return NULL;
  *status = LID_EXIT_DONE;
  return g_steal_pointer (&parts);
}

static LidExit
split (LidJob *job, const GPtrArray *parts, const char *source, gboolean json)
{
  g_autoptr (GHashTable) missing = lid_stage_parts_missing (parts);
  g_autoptr (GError) error = NULL;

  if (!lid_stages_split_job (job, missing, &error))
    return lid_failure (source, error->message, nulls, json, LID_EXIT_CALL);
  if (tonight_only)
    lid_stages_keep_one (job, 1);
  if (!lid_output_job (job, out_path, &error))
    return lid_failure (source, error->message, nulls, json, LID_EXIT_CALL);
  return LID_EXIT_DONE;
}

/* One stage in figures. */
typedef struct
{
  const char *name;
  guint hands;
  LidAssessment *assessment;
} Row;

static void
row_read (const LidJob *job, guint n, Row *row)
{
  const LidStage *stage = job->stages->pdata[n];
  const LidPopulation *before = lid_stages_before (job, n + 1);
  g_autoptr (LidChanges) changes = lid_changes_new (job->board, before, stage->population);

  row->name = stage->name;
  row->hands = changes->hands;
  row->assessment
      = lid_assessment_new (&(LidQuestion){ job->board, stage->population, job->as_found });
}

static void
write_stage (LidJsonWriter *writer, const LidJob *job, guint n)
{
  g_autofree char *text = NULL;
  const LidFigures *figures;
  Row row;

  row_read (job, n - 1, &row);
  figures = &row.assessment->figures;
  text = lid_stages_describe (job, n, row.assessment);
  lid_json_write_open (writer, NULL, '{');
  lid_json_write_int (writer, "n", n);
  lid_json_write_text (writer, "name", row.name);
  lid_json_write_int (writer, "hands", row.hands);
  lid_json_write_bool (writer, "stops", lid_assessment_worst (row.assessment) == LID_GRADE_STOPS);
  lid_json_write_int_or_null (writer, "usable_mib", figures->usable_mib,
                              figures->starts && figures->usable_known);
  lid_json_write_int_or_null (writer, "running_mts", lid_rate_mts (figures->running),
                              figures->running != LID_RATE_UNKNOWN);
  lid_json_write_text (writer, "text", text);
  lid_json_write_close (writer, '}');
  lid_assessment_free (row.assessment);
}

static void
report_json (const LidJob *job, const GPtrArray *parts, const char *source)
{
  g_autoptr (GString) out = g_string_new (NULL);
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, source, NULL);
  lid_json_write_open (&writer, "stages", '[');
  for (guint i = 0; i < job->stages->len; i++)
    write_stage (&writer, job, i + 1);
  lid_json_write_close (&writer, ']');
  lid_json_write_bool (&writer, "every_way", lid_stages_every_way (job));
  lid_json_write_open (&writer, "brings", '[');
  for (guint i = 0; i < parts->len; i++)
    {
      const LidStagePart *part = parts->pdata[i];

      lid_json_write_open (&writer, NULL, '{');
      lid_json_write_text (&writer, "part", part->part);
      lid_json_write_text (&writer, "module", part->words);
      lid_json_write_int (&writer, "quantity", part->modules->len);
      lid_json_write_int (&writer, "missing", part->missing);
      lid_json_write_close (&writer, '}');
    }
  lid_json_write_close (&writer, ']');
  lid_json_line_close (&writer);
  lid_output (out->str, (gssize)out->len);
}

static void
report_text (const LidJob *job, const GPtrArray *parts)
{
  for (guint i = 0; i < parts->len; i++)
    {
      const LidStagePart *part = parts->pdata[i];

      if (part->missing > 0)
        lid_output_line (_ ("Not there: %u of %u of %s"), part->missing, part->modules->len,
                         part->part != NULL ? part->part : part->words);
    }
  for (guint i = 0; i < job->stages->len; i++)
    {
      g_autofree char *text = NULL;
      Row row;

      row_read (job, i, &row);
      text = lid_stages_describe (job, i + 1, row.assessment);
      lid_output_line (_ ("%u. %s: %s"), i + 1, row.name != NULL ? row.name : "–", text);
      lid_assessment_free (row.assessment);
    }
  if (job->stages->len > 1 && !lid_stages_every_way (job))
    lid_output_line ("%s", lid_stages_not_every_way ());
}

static gboolean
check_call (int n_arguments)
{
  if (n_arguments != 1)
    lid_complain ("%s", _ ("stages takes one job"));
  else if ((missing_words != NULL || tonight_only) && out_path == NULL)
    lid_complain ("%s", _ ("--missing and --tonight-only split the plan: say where the job goes "
                           "with -o JOB"));
  else
    return TRUE;
  return FALSE;
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (GPtrArray) parts = NULL;
  g_autoptr (GError) error = NULL;
  LidExit status = LID_EXIT_DONE;

  if (!check_call (n_arguments))
    return LID_EXIT_CALL;
  if (!lid_job_open (arguments[0], NULL, lid_own_parts (), &opened, &error))
    return lid_failure (arguments[0], error->message, nulls, json, LID_EXIT_UNREAD);
  if (opened.job->stages->len == 0)
    return lid_failure (arguments[0], _ ("the job holds no plan, so it has no stages"), nulls, json,
                        LID_EXIT_CALL);
  if (out_path != NULL && opened.job->as_found == NULL)
    return lid_failure (arguments[0],
                        _ ("stages need both what was found and a plan; one of them is not there"),
                        nulls, json, LID_EXIT_CALL);
  parts = ask_parts (opened.job, &error, &status);
  if (error != NULL)
    return lid_failure (arguments[0], error->message, nulls, json, status);
  if (parts != NULL && out_path != NULL)
    status = split (opened.job, parts, arguments[0], json);
  if (status != LID_EXIT_DONE || g_strcmp0 (out_path, "-") == 0)
    return status;
  if (json)
    report_json (opened.job, parts, arguments[0]);
  else
    report_text (opened.job, parts);
  return LID_EXIT_DONE;
}

const LidCommand lid_command_stages = {
  .name = "stages",
  .arguments = N_ ("JOB"),
  .summary = N_ ("Show the stages of a plan, or split it into tonight and later"),
  .details
  = N_ ("When part of the order is missing, -o splits the plan: tonight what can be done with the "
        "modules at hand, so that nothing stops and as much memory as possible can be used; later "
        "the rest. Where more than eight slots are in question not every way is tried, and there "
        "may be a better one; it is said. What is missing: all modules that have to be bought, "
        "what the shelf of --stock does not hold for this job, or what --missing names. "
        "The commands check, steps and sheet show one stage each."),
  .entries = entries,
  .run = run,
};
