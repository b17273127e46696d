/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "command.h"
#include "commands.h"
#include "failure.h"
#include "output.h"
#include "own-data.h"
#include "prove-report.h"
#include "stage-option.h"

#include "job/job-open.h"

#include <glib/gi18n.h>
#include <string.h>

/* Of an input of which nothing can be told. */
static const char *const nulls[] = { "matches", "slots", "advice", NULL };

static gint64 seen_mib = -1, seen_rate;
static char *seen_total, *seen_slots, *out_path;
static int stage;

static const GOptionEntry entries[] = {
  { "seen-total", 0, 0, G_OPTION_ARG_STRING, &seen_total,
    N_ ("By eye: the total the setup screen shows, in MB, or with its unit: 128GB"), N_ ("MB") },
  { "seen-rate", 0, 0, G_OPTION_ARG_INT64, &seen_rate,
    N_ ("By eye: the rate it shows (setup may call it MHz)"), N_ ("MTS") },
  { "seen-slots", 0, 0, G_OPTION_ARG_STRING, &seen_slots,
    N_ ("By eye: the slots it shows as filled, with commas between them"), N_ ("LIST") },
  LID_STAGE_OPTION_ENTRY (&stage),
  { "output", 'o', 0, G_OPTION_ARG_FILENAME, &out_path,
    N_ ("Save the job with what was seen as left"), N_ ("JOB") },
  G_OPTION_ENTRY_NULL,
};

static gboolean
is_by_eye (void)
{
  return seen_total != NULL || seen_rate != 0 || seen_slots != NULL;
}

/* As a setup screen prints it: "98304", "98304 MB", "96 GB", "1.5TB"; a number alone is MB. */
static gboolean
read_total (void)
{
  static const struct
  {
    const char *unit;
    gint64 mib;
  } units[] = { { "", 1 },
                { "M", 1 },
                { "MB", 1 },
                { "MiB", 1 },
                { "G", 1024 },
                { "GB", 1024 },
                { "GiB", 1024 },
                { "T", 1024 * 1024 },
                { "TB", 1024 * 1024 },
                { "TiB", 1024 * 1024 } };
  char *end;
  double number;

  if (seen_total == NULL)
    return TRUE;
  number = g_ascii_strtod (seen_total, &end);
  if (end == seen_total || !(number >= 0) || strpbrk (seen_total, "xXnN") != NULL)
    return FALSE;
  while (*end == ' ')
    end++;
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (g_ascii_strcasecmp (end, units[i].unit) == 0
        && number * (double)units[i].mib <= (double)LID_JOB_MAX_TOTAL)
      {
        seen_mib = (gint64)(number * (double)units[i].mib + 0.5);
        return TRUE;
      }
  return FALSE;
}

static gboolean
is_call_right (int n_arguments)
{
  if (!read_total ())
    lid_complain (_ ("--seen-total takes what the setup screen shows, in MB or with its unit: "
                     "98304, 96GB; not “%s”"),
                  seen_total);
  else if (seen_rate != 0
           && (seen_rate < 0 || seen_rate > LID_RATE_MAX_MTS
               || !lid_inventory_rate_is_plausible ((guint)seen_rate)))
    lid_complain ("%s",
                  _ ("--seen-rate takes the MT/s that the setup screen shows; no memory runs at "
                     "that number"));
  else if (is_by_eye () && n_arguments != 1)
    lid_complain ("%s", _ ("by eye, prove takes one job and no inventory"));
  else if (!is_by_eye () && n_arguments != 2)
    lid_complain ("%s", _ ("prove takes a job and the inventory read after power-on, or a job and "
                           "what was read by eye: --seen-total, --seen-rate, --seen-slots"));
  else
    return TRUE;
  return FALSE;
}

/* A rate on a setup screen is a number rounded as the modules' standard rounds it. */
static LidRate
rate_by_eye (const LidPopulation *planned)
{
  LidGeneration generation = LID_GENERATION_UNKNOWN;

  for (guint i = 0; i < planned->n_slots && generation == LID_GENERATION_UNKNOWN; i++)
    if (planned->slots[i].module != NULL)
      generation = lid_module_generation (planned->slots[i].module);
  return seen_rate != 0 ? lid_rate_snap (generation, (guint)seen_rate) : LID_RATE_UNKNOWN;
}

static LidProof *
prove_by_eye (const LidJob *job, const LidPopulation *planned, GError **error)
{
  return lid_proof_new_by_eye (
      job, planned, &(LidSeenByEye){ seen_mib, rate_by_eye (planned), seen_slots }, error);
}

static LidExit
prove_inventory (const LidJob *job,
                 const LidPopulation *planned,
                 const char *inventory,
                 LidProof **proof,
                 GError **error)
{
  g_auto (LidOpened) seen = { NULL, NULL, NULL };

  if (!lid_job_open_inventory (inventory, NULL, lid_own_parts (), &seen, error))
    return LID_EXIT_UNREAD;
  *proof = lid_proof_new (job, planned, seen.inventory);
  return LID_EXIT_DONE;
}

static LidExit
report (LidProof *proof, LidJob *job, const char *source, gboolean json)
{
  g_autoptr (GString) out = g_string_new (NULL);
  g_autoptr (GError) error = NULL;

  if (json)
    lid_prove_report_json (out, source, proof);
  else
    lid_prove_report_text (out, source, proof);
  if (g_strcmp0 (out_path, "-") == 0)
    lid_complain_raw (out->str);
  else
    lid_output (out->str, (gssize)out->len);
  if (out_path != NULL)
    {
      lid_proof_keep (proof, job);
      if (!lid_output_job (job, out_path, &error))
        {
          lid_complain ("%s", error->message);
          return LID_EXIT_CALL;
        }
    }
  return proof->matches ? LID_EXIT_DONE : LID_EXIT_STOPS;
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (GError) error = NULL;
  g_autoptr (LidProof) proof = NULL;
  g_autofree char *reason = NULL;
  const LidPopulation *from, *planned;
  const char *source = n_arguments > 0 ? arguments[n_arguments - 1] : NULL;
  LidExit status;

  if (!is_call_right (n_arguments))
    return LID_EXIT_CALL;
  if (!lid_job_open (arguments[0], NULL, lid_own_parts (), &opened, &error))
    return lid_failure (arguments[0], error->message, nulls, json, LID_EXIT_UNREAD);
  if (!lid_stage_option_find (opened.job, stage, &from, &planned, &reason))
    {
      g_autofree char *named = g_strdup_printf ("%s: %s", arguments[0], reason);

      return lid_failure (arguments[0], named, nulls, json, LID_EXIT_CALL);
    }
  if (is_by_eye ())
    {
      proof = prove_by_eye (opened.job, planned, &error);
      status = LID_EXIT_CALL;
    }
  else
    status = prove_inventory (opened.job, planned, source, &proof, &error);
  if (proof == NULL)
    return lid_failure (source, error->message, nulls, json, status);
  return report (proof, opened.job, source, json);
}

const LidCommand lid_command_prove = {
  .name = "prove",
  .arguments = N_ ("JOB [INVENTORY]"),
  .summary = N_ ("Hold what is seen after power-on against what is planned"),
  .details = N_ (
      "INVENTORY is the machine read after power-on, in any form that read takes; or tell what the "
      "setup screen shows. Each slot gets a verdict; where one differs, what to try is said, the "
      "cheapest first. With -o what was seen becomes as left of the job, and the lid sheet says "
      "whether it was proved, and whether by eye. The exit status is 3 where something is other "
      "than planned, or where too little was told to say that nothing is."),
  .entries = entries,
  .run = run,
};
