/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/remedy.h"
#include "checks/rules.h"
#include "figures/bandwidth.h"

#include <glib/gi18n-lib.h>

static char *
splits_words (const LidBoard *board)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < board->n_numa; i++)
    g_string_append_printf (out, "%s%u", i > 0 ? _ (" or ") : "", board->numa[i]);
  return g_string_free (out, FALSE);
}

/* Into how many nodes setup can cut a processor is the board's word: shared/facts/population.md
 * 4.5. A board that does not say forbids nothing. */
static void
check_split (LidCheck *check)
{
  g_autofree char *splits = NULL;
  LidFinding *finding;

  if (check->population->numa_split <= 1
      || lid_bandwidth_splits (check->board, check->population->numa_split))
    return;
  splits = splits_words (check->board);
  finding = lid_check_add (
      check, LID_GRADE_LOSES, LID_STOPS_NOTHING, NULL,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                    "Set to %u node a processor, and this board can be cut into "
                                    "%s: the figures are those of one.",
                                    "Set to %u nodes a processor, and this board can be cut into "
                                    "%s: the figures are those of one.",
                                    check->population->numa_split),
                       check->population->numa_split, splits));
  finding->source = check->board->source != NULL ? check->board->source : finding->source;
  lid_remedy_say (check, finding, g_strdup_printf (_ ("Set it to %s."), splits));
}

const LidRule lid_rule_numa_split = {
  .id = "numa-split",
  .title = N_ ("nodes a processor is cut into"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .no_moves = N_ ("It is a setting, and settings are changed in setup."),
  .why = N_ ("Setup cuts a processor into the numbers of nodes it was made for, each with channels "
             "of its own, and ignores others."),
  .clears = N_ ("Set the split to a number the board offers."),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_split,
};
