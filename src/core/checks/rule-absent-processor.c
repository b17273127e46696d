/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/rules.h"

#include "checks/names.h"
#include "checks/remedy.h"

#include <glib/gi18n-lib.h>

/* A running machine showed memory of a processor that is told as absent (assessment.c). */
static void
doubt_absence (LidCheck *check)
{
  LidSlotSet slots = { { 0 } };
  g_autofree char *names = NULL, *sockets = NULL;
  LidFinding *finding;

  for (guint i = 0; i < check->survey->n_fitted; i++)
    {
      int socket = check->board->slots[check->survey->fitted[i]].socket;

      if (socket != LID_NOWHERE && (check->belied >> socket & 1) == 1)
        lid_slot_set_add (&slots, check->survey->fitted[i]);
    }
  names = lid_names_slots (check, &slots);
  sockets = lid_names_sockets (check, check->belied);
  finding = lid_check_add (
      check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, &slots,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                    "Processor %s is told as not fitted, but the machine ran and "
                                    "showed what is in %s with its size: it counts, and the "
                                    "processor is taken as fitted.",
                                    "Processors %s are told as not fitted, but the machine ran and "
                                    "showed what is in %s with its size: it counts, and the "
                                    "processors are taken as fitted.",
                                    (gulong)__builtin_popcount (check->belied)),
                       sockets, names));
  lid_remedy_say (check, finding,
                  g_strdup (_ ("Look which processors are fitted, and tell the job.")));
}

/* A slot hangs on its processor's controller: none there, nothing sees the slot (P7). */
static void
check_processor (LidCheck *check)
{
  LidSlotSet slots = { { 0 } };
  g_autofree char *names = NULL, *sockets = NULL;
  guint32 absent = 0;
  LidFinding *finding;

  if (check->belied != 0)
    doubt_absence (check);
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
      g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE,
                       "Processor %s is not fitted, so what is in %s is not seen until it is.",
                       "Processors %s are not fitted, so what is in %s is not seen until they are.",
                       (gulong)__builtin_popcount (absent)),
          sockets, names));
  lid_remedy_say (
      check, finding,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                    "Fit processor %s, or use the slots of a fitted one.",
                                    "Fit processors %s, or use the slots of a fitted one.",
                                    (gulong)__builtin_popcount (absent)),
                       sockets));
}

const LidRule lid_rule_absent_processor = {
  .id = "absent-processor",
  .title = N_ ("slots of an absent processor"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS) | LID_GRADE_BIT (LID_GRADE_UNSURE),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_SETTLE,
  .why = N_ ("The memory controllers are inside the processor. Slots of a processor that is not "
             "fitted are on no wire: what sits in them is neither seen nor counted."),
  .clears
  = N_ ("Fit that processor, or move the modules to slots of a fitted one. Where a running "
        "machine showed them all the same, correct in the job which processors are fitted."),
  .basis = "physics",
  .source = LID_COMMON_PRACTICE,
  .check = check_processor,
};
