/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Air takes the way of least resistance: an empty slot without its blank starves the modules
 * (P15). */
static void
check_blanks (LidCheck *check)
{
  LidSlotSet slots = { { 0 } };
  guint n = 0;

  if (!check->board->has_blanks)
    return;
  for (guint i = 0; i < check->board->n_slots; i++)
    if (check->board->slots[i].soldered == NULL && lid_check_module (check, i) == NULL)
      {
        lid_slot_set_add (&slots, i);
        n++;
      }
  if (n == 0)
    return;
  lid_check_add (
      check, LID_GRADE_NOTE, LID_STOPS_NOTHING, &slots,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                    "%u slot stays empty: its blank stays in, or the air "
                                    "goes that way.",
                                    "%u slots stay empty: their blanks stay in, or the "
                                    "air goes that way.",
                                    n),
                       n));
}

const LidRule lid_rule_blanks = {
  .id = "blanks",
  .title = N_ ("blanks in empty slots"),
  .scope = LID_SCOPE_MODULE,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_NOTE),
  .no_moves = N_ ("Blanks are not modules: the hands see to them."),
  .why = N_ ("Air takes the easiest way. An empty slot without its blank lets it pass beside the "
             "modules that need it."),
  .clears = N_ ("Nothing to clear: a reminder for the hands, for as long as a slot is empty."),
  .basis = "common practice",
  .source = LID_COMMON_PRACTICE,
  .check = check_blanks,
};
