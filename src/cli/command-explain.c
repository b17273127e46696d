/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "command.h"
#include "commands.h"
#include "explain-report.h"
#include "output.h"

#include <glib/gi18n.h>

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  g_autoptr (GString) out = g_string_new (NULL);
  LidExit status = LID_EXIT_DONE;

  if (n_arguments == 0)
    lid_explain_report_all (out, json);
  for (int i = 0; i < n_arguments; i++)
    if (!lid_explain_report (out, arguments[i], json))
      status = LID_EXIT_CALL;
  lid_output (out->str, (gssize)out->len);
  return status;
}

const LidCommand lid_command_explain = {
  .name = "explain",
  .arguments = N_ ("[WORD|RULE|CAUTION…]"),
  .summary = N_ ("Say what a word means, why a rule speaks or a caution stands"),
  .details = N_ ("WORD is one of the program's own words, RULE the id of a finding's rule as "
                 "--json prints it, CAUTION the id of a caution of the bench sheet. Without an "
                 "argument all of them are listed."),
  .run = run,
};
