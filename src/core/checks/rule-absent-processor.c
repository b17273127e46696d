/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/rules.h"

#include "checks/names.h"
#include "checks/remedy.h"

#include <glib/gi18n-lib.h>

/* A slot hangs on its processor's controller: none there, nothing sees the slot (P7). */
static void
check_processor (LidCheck *check)
{
  LidSlotSet slots = { { 0 } };
  g_autofree char *names = NULL, *sockets = NULL;
  guint32 absent = 0;
  LidFinding *finding;

  if (check->n_live == check->survey->n_fitted)
    return;
  for (guint i = 0; i < check->survey->n_fitted; i++)
    {
      guint slot = check->survey->fitted[i];

      if (lid_survey_socket_fitted (check->survey, slot))
        continue;
      lid_slot_set_add (&slots, slot);
      absent |= 1u << check->board->slots[slot].socket;
    }
  names = lid_names_slots (check, &slots);
  sockets = lid_names_sockets (check, absent);
  finding = lid_check_add (
      check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &slots,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                    "Processor %s is not fitted, so what is in %s is not seen.",
                                    "Processors %s are not fitted, so what is in %s is not seen.",
                                    (gulong)__builtin_popcount (absent)),
                       sockets, names));
  lid_remedy_say (
      check, finding,
      g_strdup_printf (_ ("Fit processor %s, or use the slots of a fitted one."), sockets));
}

const LidRule lid_rule_absent_processor = {
  .id = "absent-processor",
  .title = N_ ("slots of an absent processor"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_SETTLE,
  .why = N_ ("The memory controllers are inside the processor. Slots of a processor that is not "
             "fitted are on no wire: what sits in them is neither seen nor counted."),
  .clears = N_ ("Fit that processor, or move the modules to slots of a fitted one."),
  .basis = "physics",
  .source = LID_COMMON_PRACTICE,
  .check = check_processor,
};
