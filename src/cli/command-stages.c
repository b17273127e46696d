/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "command.h"
#include "commands.h"
#include "json-line.h"
#include "output.h"
#include "own-data.h"

#include "base/json-write.h"
#include "base/units.h"
#include "changeover/stages.h"
#include "checks/assessment.h"
#include "job/changes.h"
#include "job/job-file.h"
#include "job/job-open.h"

#include <glib/gi18n.h>
#include <string.h>

static char **missing_words;
static char *out_path;

static const GOptionEntry entries[] = {
  { "missing", 0, 0, G_OPTION_ARG_STRING_ARRAY, &missing_words,
    N_ ("A part number of the plan that is not there, =N: so many of it; may be given again "
        "(default: all that has to be bought)"),
    N_ ("PART[=N]") },
  { "output", 'o', 0, G_OPTION_ARG_FILENAME, &out_path,
    N_ ("Split the plan into tonight and later, and save the job there"), N_ ("JOB") },
  G_OPTION_ENTRY_NULL,
};

static LidExit
fail (const char *source, const char *reason, gboolean json, LidExit status)
{
  g_autoptr (GString) out = g_string_new (NULL);
  LidJsonWriter writer;

  if (!json)
    {
      lid_complain ("%s", reason);
      return status;
    }
  lid_json_line_open (&writer, out, source, reason);
  lid_json_write_null (&writer, "stages");
  lid_json_line_close (&writer);
  lid_output (out->str, (gssize)out->len);
  return status;
}

static gboolean
is_new (const LidJob *job, const LidModule *module)
{
  for (guint i = 0; i < job->as_found->n_slots; i++)
    if (job->as_found->slots[i].module == module)
      return FALSE;
  return TRUE;
}

static guint
mark (const LidJob *job, LidModule *module, const char *part, GHashTable *missing)
{
  return module != NULL && g_strcmp0 (module->part, part) == 0 && is_new (job, module)
         && g_hash_table_add (missing, module);
}

/* So many modules of a part, the last fitted first: what is there goes where it helps first. A new
 * module can be planned for a slot that keeps one like it, so all slots are looked at. */
static guint
mark_missing (const LidJob *job, const char *part, guint most, GHashTable *missing)
{
  const LidPopulation *plan = lid_job_get_population (job, LID_PLANNED);
  g_autoptr (LidChanges) changes = lid_changes_new (job->board, job->as_found, plan);
  guint n = 0;

  for (guint i = changes->n_fitted; i > 0 && n < most; i--)
    n += mark (job, changes->slots[changes->fitted[i - 1]].after, part, missing);
  for (guint i = plan->n_slots; i > 0 && n < most; i--)
    n += mark (job, plan->slots[i - 1].module, part, missing);
  return n;
}

/* "PART" or "PART=N". */
static gboolean
read_missing (const LidJob *job, const char *word, GHashTable *missing)
{
  const char *sign = strrchr (word, '=');
  g_autofree char *part = sign != NULL ? g_strndup (word, (gsize)(sign - word)) : g_strdup (word);
  guint64 most = G_MAXUINT;

  if (sign != NULL && !g_ascii_string_to_unsigned (sign + 1, 10, 1, 9999, &most, NULL))
    {
      lid_complain (_ ("--missing takes PART or PART=N with N from 1 to 9999, not “%s”"), word);
      return FALSE;
    }
  if (mark_missing (job, part, (guint)most, missing) > 0)
    return TRUE;
  lid_complain (_ ("--missing: the plan brings no module of the part “%s”"), part);
  return FALSE;
}

/* "-o -": the job is what standard output is for; nothing else is written there. */
static gboolean
save (const LidJob *job, GError **error)
{
  g_autofree char *text = NULL;

  if (strcmp (out_path, "-") != 0)
    return lid_job_file_save (job, out_path, error);
  text = lid_job_file_to_text (job);
  lid_output (text, (gssize)strlen (text));
  return TRUE;
}

static LidExit
split (LidJob *job, const char *source, gboolean json)
{
  g_autoptr (GHashTable) missing = NULL;
  g_autoptr (GError) error = NULL;

  if (job->as_found == NULL || lid_job_get_population (job, LID_PLANNED) == NULL)
    return fail (source, _ ("stages need both what was found and a plan; one of them is not there"),
                 json, LID_EXIT_CALL);
  missing = missing_words != NULL ? g_hash_table_new (NULL, NULL) : lid_stages_to_buy (job);
  for (guint i = 0; missing_words != NULL && missing_words[i] != NULL; i++)
    if (!read_missing (job, missing_words[i], missing))
      return LID_EXIT_CALL;
  if (!lid_stages_split_job (job, missing, &error) || !save (job, &error))
    return fail (source, error->message, json, LID_EXIT_CALL);
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
report_json (const LidJob *job, const char *source)
{
  g_autoptr (GString) out = g_string_new (NULL);
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, source, NULL);
  lid_json_write_open (&writer, "stages", '[');
  for (guint i = 0; i < job->stages->len; i++)
    {
      const LidFigures *figures;
      Row row;

      row_read (job, i, &row);
      figures = &row.assessment->figures;
      lid_json_write_open (&writer, NULL, '{');
      lid_json_write_int (&writer, "n", i + 1);
      lid_json_write_text (&writer, "name", row.name);
      lid_json_write_int (&writer, "hands", row.hands);
      lid_json_write_bool (&writer, "stops",
                           lid_assessment_worst (row.assessment) == LID_GRADE_STOPS);
      lid_json_write_int_or_null (&writer, "usable_mib", figures->usable_mib,
                                  figures->starts && figures->usable_known);
      lid_json_write_int_or_null (&writer, "running_mts", lid_rate_mts (figures->running),
                                  figures->running != LID_RATE_UNKNOWN);
      lid_json_write_close (&writer, '}');
      lid_assessment_free (row.assessment);
    }
  lid_json_write_close (&writer, ']');
  lid_json_line_close (&writer);
  lid_output (out->str, (gssize)out->len);
}

static void
report_row (guint n, const Row *row)
{
  const LidFigures *figures = &row->assessment->figures;
  g_autofree char *usable = figures->starts && figures->usable_known
                                ? lid_units_capacity (figures->usable_mib)
                                : g_strdup (_ ("size not told"));
  const char *name = row->name != NULL ? row->name : "–";

  if (lid_assessment_worst (row->assessment) == LID_GRADE_STOPS)
    lid_output_line (_ ("%u. %s: something stops it; see the check"), n, name);
  else
    lid_output_line (g_dngettext (GETTEXT_PACKAGE, "%u. %s: %s, %u module is touched",
                                  "%u. %s: %s, %u modules are touched", row->hands),
                     n, name, usable, row->hands);
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (GError) error = NULL;
  LidExit status = LID_EXIT_DONE;

  if (n_arguments != 1 || (missing_words != NULL && out_path == NULL))
    {
      lid_complain ("%s", n_arguments != 1 ? _ ("stages takes one job")
                                           : _ ("--missing splits the plan: say where the job goes "
                                                "with -o JOB"));
      return LID_EXIT_CALL;
    }
  if (!lid_job_open (arguments[0], NULL, lid_own_parts (), &opened, &error))
    return fail (arguments[0], error->message, json, LID_EXIT_UNREAD);
  if (out_path != NULL)
    status = split (opened.job, arguments[0], json);
  if (status != LID_EXIT_DONE || g_strcmp0 (out_path, "-") == 0)
    return status;
  if (opened.job->stages->len == 0)
    return fail (arguments[0], _ ("the job holds no plan, so it has no stages"), json,
                 LID_EXIT_CALL);
  if (json)
    {
      report_json (opened.job, arguments[0]);
      return LID_EXIT_DONE;
    }
  for (guint i = 0; i < opened.job->stages->len; i++)
    {
      Row row;

      row_read (opened.job, i, &row);
      report_row (i + 1, &row);
      lid_assessment_free (row.assessment);
    }
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
        "may be a better one. What is missing: all modules that have to be bought, or what "
        "--missing names. "
        "The commands check, steps and sheet show one stage each."),
  .entries = entries,
  .run = run,
};
