/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "command.h"
#include "commands.h"
#include "json-line.h"
#include "output.h"
#include "rules-report.h"

#include "checks/rules.h"
#include "help/catalogue.h"

#include <glib/gi18n.h>

static gboolean html;

static const GOptionEntry entries[] = {
  { "html", 0, 0, G_OPTION_ARG_NONE, &html, N_ ("Print the whole catalogue as one HTML page"),
    NULL },
  G_OPTION_ENTRY_NULL,
};

static LidExit
report (GString *out, const char *id, gboolean json)
{
  const LidRule *rule = lid_rules_find (id);
  g_autofree char *reason = NULL;

  if (rule != NULL)
    {
      lid_rules_report (out, id, rule, json);
      return LID_EXIT_DONE;
    }
  reason = g_strdup_printf (_ ("there is no rule “%s”; rules alone lists them"), id);
  if (json)
    lid_json_line_failure (out, id, reason);
  else
    lid_complain ("%s", reason);
  return LID_EXIT_CALL;
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_autoptr (GString) out = g_string_new (NULL);
  LidExit status = LID_EXIT_DONE;

  if (html && (json || n_arguments > 0))
    {
      lid_complain ("%s", _ ("--html prints the whole catalogue and goes with nothing else"));
      return LID_EXIT_CALL;
    }
  if (html)
    {
      g_autofree char *page = lid_catalogue_html ();

      g_string_append (out, page);
    }
  else if (n_arguments == 0 && !json)
    lid_rules_report_list (out);
  for (guint i = 0; json && n_arguments == 0 && lid_rules[i] != NULL; i++)
    lid_rules_report (out, lid_rules[i]->id, lid_rules[i], TRUE);
  for (int i = 0; i < n_arguments; i++)
    if (report (out, arguments[i], json) != LID_EXIT_DONE)
      status = LID_EXIT_CALL;
  lid_output (out->str, (gssize)out->len);
  return status;
}

const LidCommand lid_command_rules = {
  .name = "rules",
  .arguments = N_ ("[RULE…]"),
  .summary = N_ ("Show the catalogue of rules: why, from where, an example, what clears it"),
  .details = N_ ("RULE is the id of a finding's rule as --json prints it. Without an argument all "
                 "rules are listed. Each example is judged by the checker as it is shown."),
  .entries = entries,
  .run = run,
};
