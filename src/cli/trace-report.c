/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "trace-report.h"

#include "json-line.h"
#include "output.h"

#include <glib/gi18n.h>

#define MOST_TEXTS 16u

static void
write_suspect (LidJsonWriter *writer, const LidBoard *board, const LidSuspect *suspect)
{
  lid_json_write_open (writer, NULL, '{');
  lid_json_write_text (writer, "kind", lid_suspect_to_text (suspect->kind));
  lid_json_write_text (writer, "slot",
                       suspect->slot != LID_NOWHERE ? board->slots[suspect->slot].id : NULL);
  lid_json_write_text (writer, "module", suspect->module);
  lid_json_write_text (writer, "channel",
                       suspect->channel != LID_NOWHERE ? board->channels[suspect->channel].name
                                                       : NULL);
  lid_json_write_int_or_null (writer, "processor", suspect->processor + 1,
                              suspect->processor != LID_NOWHERE);
  lid_json_write_close (writer, '}');
}

static void
write_explanations (LidJsonWriter *writer, const LidBoard *board, const LidTrace *trace)
{
  lid_json_write_open (writer, "explanations", '[');
  for (guint i = 0; i < trace->explanations->len; i++)
    {
      const LidExplanation *one = &g_array_index (trace->explanations, LidExplanation, i);

      lid_json_write_open (writer, NULL, '{');
      lid_json_write_text (writer, "text", trace->texts->pdata[i]);
      lid_json_write_open (writer, "of", '[');
      write_suspect (writer, board, &one->one);
      if (one->two)
        write_suspect (writer, board, &one->other);
      lid_json_write_close (writer, ']');
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
}

static void
write_next (LidJsonWriter *writer, const LidBoard *board, const LidNextTrial *next)
{
  const LidTrial *trial = next->trial;

  lid_json_write_open (writer, "next", '{');
  lid_json_write_text (writer, "kind", lid_next_to_text (next->kind));
  lid_json_write_text (writer, "text", next->text);
  lid_json_write_int (writer, "left_at_most", next->worst);
  lid_json_write_open (writer, "slots", '[');
  for (guint i = 0; i < board->n_slots; i++)
    if (trial->population->slots[i].module != NULL)
      {
        lid_json_write_open (writer, NULL, '{');
        lid_json_write_text (writer, "slot", board->slots[i].id);
        lid_json_write_text (writer, "module", trial->population->slots[i].module->id);
        lid_json_write_bool (writer, "reseated", trial->reseated[i]);
        lid_json_write_close (writer, '}');
      }
  lid_json_write_close (writer, ']');
  lid_json_write_open (writer, "processors", '[');
  for (guint s = 0; s < trial->n_sockets; s++)
    lid_json_write_int (writer, NULL, trial->processor_of[s] + 1);
  lid_json_write_close (writer, ']');
  lid_json_write_bool (writer, "eased", trial->eased);
  lid_json_write_close (writer, '}');
}

/**
 * lid_trace_report_json:
 *
 * The contract of product.md 11: explanations, next, answer; with three keys more, contradicted,
 * doubtful (only something common is left though slots were told, so a note may be wrong) and how
 * many trials of this search are noted.
 */
void
lid_trace_report_json (GString *out,
                       const char *source,
                       const LidBoard *board,
                       const LidTrace *trace)
{
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, source, NULL);
  write_explanations (&writer, board, trace);
  if (trace->next != NULL)
    write_next (&writer, board, trace->next);
  else
    lid_json_write_null (&writer, "next");
  lid_json_write_text (&writer, "answer", trace->answer);
  lid_json_write_bool (&writer, "contradicted", trace->contradicted);
  lid_json_write_bool (&writer, "doubtful", trace->doubtful);
  lid_json_write_int (&writer, "trials", trace->n_trials);
  lid_json_line_close (&writer);
}

static void
put_next (GString *out, const char *job, const LidNextTrial *next, gboolean untold)
{
  g_autofree char *name = lid_output_quote (job);

  g_string_append_printf (out, "\n%s\n", _ ("The next start that tells most:"));
  if (next->by_hand)
    g_string_append_printf (out, "  %s\n",
                            _ ("[ ] Shut down, every cord out, wait until the standby lamp is out, "
                               "strap on. The machine "
                               "maker's service guide and local rules come first."));
  g_string_append_printf (out, "  [ ] %s\n", next->text);
  g_string_append_printf (
      out, "  %s\n",
      _ ("[ ] Clear the error log, start, and wait three times as long as the fault usually takes. "
         "Memory training may take up to 15 minutes of that."));
  g_string_append_printf (
      out,
      g_dngettext (GETTEXT_PACKAGE, "  It leaves at most %u explanation. Note what it showed:\n",
                   "  It leaves at most %u explanations. Note what it showed:\n", next->worst),
      next->worst);
  g_string_append_printf (out, "    lidleaf-cli trace --did %s -o %s %s\n",
                          untold ? "--fault-somewhere" : "--fault SLOT", name, name);
  g_string_append_printf (out, "    lidleaf-cli trace --did --clean -o %s %s\n", name, name);
}

/* A large machine of which nobody can tell the slot has hundreds, all alike. */
static void
put_explanations (GString *out, const LidTrace *trace)
{
  guint shown = trace->texts->len > MOST_TEXTS ? MOST_TEXTS : trace->texts->len;
  guint more = trace->texts->len - shown;

  for (guint i = 0; i < shown; i++)
    g_string_append_printf (out, "  %s\n", (const char *)trace->texts->pdata[i]);
  if (more > 0)
    g_string_append_printf (out,
                            g_dngettext (GETTEXT_PACKAGE, "  and %u more, which --json lists\n",
                                         "  and %u more, which --json lists\n", more),
                            more);
  if (trace->doubtful)
    g_string_append_printf (
        out, "  %s\n",
        _ ("The slots named fit no one thing: if one was named wrongly, take that "
           "start back with --forget-last."));
}

/**
 * lid_trace_report_text:
 *
 * @job: the file to go on with
 *
 * For a person: what it can still be, then the answer or the next start.
 */
void
lid_trace_report_text (GString *out, const char *source, const char *job, const LidTrace *trace)
{
  if (trace->contradicted)
    {
      g_string_append_printf (
          out, "%s: %s\n", source,
          _ ("no one thing and no two together explain all that was noted. A start may be noted "
             "wrongly, or a clean one was too short: take the last back with --forget-last, repeat "
             "it, and wait longer; where the machine was mended since, begin with --new."));
      return;
    }
  if (trace->texts->len == 0)
    {
      g_string_append_printf (out, "%s: %s\n", source,
                              _ ("no start with a fault is noted yet; note the first with --fault "
                                 "SLOT, or --fault-somewhere, and -o"));
      return;
    }
  g_string_append_printf (out,
                          g_dngettext (GETTEXT_PACKAGE, "%s: after %u start it can be\n",
                                       "%s: after %u starts it can be\n", trace->n_trials),
                          source, trace->n_trials);
  put_explanations (out, trace);
  if (trace->answer != NULL)
    g_string_append_printf (out, "\n%s\n", trace->answer);
  if (trace->next != NULL)
    put_next (out, job, trace->next, trace->untold);
}
