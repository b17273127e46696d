/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "columns.h"
#include "command.h"
#include "commands.h"
#include "failure.h"
#include "json-line.h"
#include "output.h"
#include "own-data.h"
#include "stock-options.h"

#include "base/error.h"
#include "base/json-write.h"
#include "job/job-file.h"
#include "stock/reserved.h"
#include "stock/stock-amount.h"

#include <glib/gi18n.h>
#include <string.h>

static char *release, *done_path;

static const GOptionEntry entries[] = {
  LID_STOCK_OPTION_ENTRIES,
  { "release", 0, 0, G_OPTION_ARG_STRING, &release,
    N_ ("Give back what is reserved for this job, and say how much that was"), N_ ("JOB") },
  { "release-of", 0, 0, G_OPTION_ARG_FILENAME, &done_path,
    N_ ("The same for the job in this file, which is done: it knows the stock file and the name"),
    N_ ("JOB.lidleaf") },
  G_OPTION_ENTRY_NULL,
};

static void
write_module (LidJsonWriter *writer, const LidStockKind *kind)
{
  g_autofree char *words = lid_module_describe (kind->module);
  const LidStockRow *row = kind->rows->pdata[0];

  lid_json_write_text (writer, "module", words);
  lid_json_write_text (writer, "part", row->part);
  lid_json_write_text (writer, "label", row->label);
  lid_json_write_text (writer, "bin", row->bin);
  lid_json_write_int (writer, "free", (gint64)kind->quantity);
  lid_json_write_int_or_null (writer, "price_minor", row->price_minor, row->price_minor >= 0);
}

static void
write_kinds (LidJsonWriter *writer, const GPtrArray *kinds)
{
  lid_json_write_open (writer, "kinds", '[');
  for (guint i = 0; i < kinds->len; i++)
    {
      lid_json_write_open (writer, NULL, '{');
      write_module (writer, kinds->pdata[i]);
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
}

static void
write_complaints (LidJsonWriter *writer, const LidStock *stock)
{
  lid_json_write_open (writer, "kept_out", '[');
  for (guint i = 0; i < stock->complaints->len; i++)
    {
      const LidStockComplaint *complaint = stock->complaints->pdata[i];

      lid_json_write_open (writer, NULL, '{');
      lid_json_write_int (writer, "line", complaint->line);
      lid_json_write_text (writer, "text", complaint->text);
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
  lid_json_write_int (writer, "n_kept_out", stock->n_complaints);
}

static void
write_reserved (LidJsonWriter *writer, const LidReserved *reserved)
{
  lid_json_write_open (writer, "reserved", '[');
  for (guint i = 0; i < reserved->entries->len; i++)
    {
      const LidReservation *entry = reserved->entries->pdata[i];

      lid_json_write_open (writer, NULL, '{');
      lid_json_write_text (writer, "job", entry->job);
      lid_json_write_text (writer, "part", entry->part);
      lid_json_write_text (writer, "label", entry->label);
      lid_json_write_text (writer, "bin", entry->bin);
      lid_json_write_int (writer, "count", entry->count);
      lid_json_write_text (writer, "when", entry->when);
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
}

static void
report_json (const char *source,
             const LidStock *stock,
             const GPtrArray *kinds,
             const LidReserved *reserved)
{
  g_autoptr (GString) out = g_string_new (NULL);
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, source, NULL);
  lid_json_write_int (&writer, "rows", stock->rows->len);
  lid_json_write_text (&writer, "currency", stock->currency);
  lid_json_write_bool (&writer, "encoding_assumed", stock->assumed);
  write_kinds (&writer, kinds);
  write_complaints (&writer, stock);
  write_reserved (&writer, reserved);
  lid_json_line_close (&writer);
  lid_output (out->str, (gssize)out->len);
}

static void
add_kind (LidColumns *columns, const LidStock *stock, const LidStockKind *kind)
{
  const LidStockRow *row = kind->rows->pdata[0];
  g_autofree char *count = g_strdup_printf ("%" G_GUINT64_FORMAT, kind->quantity);
  g_autofree char *words = lid_module_describe (kind->module);
  g_autofree char *price = row->price_minor >= 0
                               ? lid_stock_amount_to_text (row->price_minor, stock->currency)
                               : g_strdup (_ ("no price"));

  lid_columns_add (columns, count);
  lid_columns_add (columns, words);
  lid_columns_add (columns, row->part != NULL ? row->part : "–");
  lid_columns_add (columns, price);
  lid_columns_add (columns, row->bin != NULL ? row->bin : "–");
}

static void
report_text (const char *source,
             const LidStock *stock,
             const GPtrArray *kinds,
             const LidReserved *reserved)
{
  g_autoptr (GString) out = g_string_new (NULL);
  LidColumns columns;

  g_string_append_printf (out,
                          g_dngettext (GETTEXT_PACKAGE, "%s: %u row is used, of these kinds:\n",
                                       "%s: %u rows are used, of these kinds:\n", stock->rows->len),
                          source, stock->rows->len);
  lid_columns_start (&columns, 5);
  lid_columns_add (&columns, _ ("free"));
  lid_columns_add (&columns, _ ("module"));
  lid_columns_add (&columns, _ ("part"));
  lid_columns_add (&columns, _ ("from"));
  lid_columns_add (&columns, _ ("bin"));
  for (guint i = 0; i < kinds->len; i++)
    add_kind (&columns, stock, kinds->pdata[i]);
  lid_columns_finish (&columns, out, "  ");
  for (guint i = 0; i < reserved->entries->len; i++)
    {
      const LidReservation *entry = reserved->entries->pdata[i];

      g_string_append_printf (out, _ ("Reserved for job %s: %u of %s\n"), entry->job, entry->count,
                              entry->part != NULL ? entry->part : entry->label);
    }
  lid_output (out->str, (gssize)out->len);
}

static LidExit
list_one (const char *source, const LidStockOptions *options, gboolean json)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidStock) stock = lid_stock_read (source, options, &error);
  g_autoptr (LidReserved) reserved = NULL;
  g_autoptr (GPtrArray) kinds = NULL;

  if (stock == NULL)
    return lid_failure (source, error->message, NULL, json, LID_EXIT_UNREAD);
  reserved = lid_reserved_load (source, &error);
  if (reserved == NULL)
    return lid_failure (source, error->message, NULL, json, LID_EXIT_UNREAD);
  lid_reserved_apply (reserved, stock, NULL);
  kinds = lid_stock_reduce (stock, 0);
  if (json)
    {
      report_json (source, stock, kinds, reserved);
      return LID_EXIT_DONE;
    }
  lid_stock_options_complain (source, stock);
  report_text (source, stock, kinds, reserved);
  return LID_EXIT_DONE;
}

static LidExit
report_release (const char *source, const char *job, guint n, gboolean json)
{
  g_autoptr (GString) out = g_string_new (NULL);
  LidJsonWriter writer;

  if (!json)
    {
      lid_output_line (g_dngettext (GETTEXT_PACKAGE, "%s: %u module of job %s is free again",
                                    "%s: %u modules of job %s are free again", n),
                       source, n, job);
      return LID_EXIT_DONE;
    }
  lid_json_line_open (&writer, out, source, NULL);
  lid_json_write_text (&writer, "job", job);
  lid_json_write_int (&writer, "released", n);
  lid_json_line_close (&writer);
  lid_output (out->str, (gssize)out->len);
  return LID_EXIT_DONE;
}

static LidExit
release_one (const char *source, const char *job, gboolean json)
{
  g_autoptr (GError) error = NULL;
  guint n;

  if (!lid_reserved_release (source, job, &n, &error))
    return lid_failure (source, error->message, NULL, json, LID_EXIT_UNREAD);
  return report_release (source, job, n, json);
}

/* The job file itself is only read: a job without reservations is no error when it is asked again.
 */
static LidExit
release_of_job (gboolean json)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) job = lid_job_file_load (done_path, &error);

  if (job == NULL)
    return lid_failure (done_path, error->message, NULL, json, LID_EXIT_UNREAD);
  if (job->reserved_in != NULL && job->reserved_as != NULL)
    return release_one (job->reserved_in, job->reserved_as, json);
  g_set_error (&error, LID_ERROR, LID_ERROR_NOT_FOUND,
               _ ("%s: nothing was put by for this job, or by a version that did not write where; "
                  "--release JOB and the stock file give it back"),
               done_path);
  return lid_failure (done_path, error->message, NULL, json, LID_EXIT_CALL);
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  LidExit status = LID_EXIT_DONE;
  LidStockOptions options;

  if (done_path != NULL && (n_arguments > 0 || release != NULL))
    {
      lid_complain ("%s", _ ("--release-of takes the stock file and the name from the job: leave "
                             "both out"));
      return LID_EXIT_CALL;
    }
  if (done_path != NULL)
    return release_of_job (json);
  if (n_arguments == 0)
    {
      lid_complain ("%s", _ ("stock needs a stock file: a CSV file that heads its columns part, "
                             "label, quantity, price, bin"));
      return LID_EXIT_CALL;
    }
  if (!lid_stock_options_read (&options))
    return LID_EXIT_CALL;
  for (int i = 0; i < n_arguments; i++)
    {
      LidExit one = release != NULL ? release_one (arguments[i], release, json)
                                    : list_one (arguments[i], &options, json);
      status = MAX (status, one);
    }
  return status;
}

const LidCommand lid_command_stock = {
  .name = "stock",
  .arguments = N_ ("CSV…"),
  .summary = N_ ("Show what a stock file holds, what was kept out, and what is reserved"),
  .details = N_ (
      "A stock file is CSV, parted by commas, semicolons or tabs; its first row heads the columns "
      "part, label, quantity, price, bin and, where wanted, credit, in any order. The heading "
      "declares currency and decimal mark: \"price EUR 0,00\" or \"price (EUR, decimal comma)\". "
      "An amount that can be read in two ways keeps its row out until the mark is declared. Rows "
      "kept out are named with their line. Reservations are kept in CSV.reserved; the stock file "
      "is never written."),
  .entries = entries,
  .run = run,
};
