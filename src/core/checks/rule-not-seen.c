/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

static void
check_seen (LidCheck *check)
{
  LidSlotSet slots = { { 0 } };
  g_autofree char *names = NULL;
  LidFinding *finding;

  for (guint i = 0; i < check->survey->n_fitted; i++)
    if (check->population->slots[check->survey->fitted[i]].state == LID_SLOT_NOT_SEEN)
      lid_slot_set_add (&slots, check->survey->fitted[i]);
  if (lid_slot_set_is_empty (&slots))
    return;
  names = lid_names_slots (check, &slots);
  finding = lid_check_add (
      check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &slots,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                    "%s is filled, but the machine does not use what is in it.",
                                    "%s are filled, but the machine does not use what is in them.",
                                    lid_slot_set_count (&slots)),
                       names));
  lid_remedy_say (
      check, finding,
      g_strdup (_ ("Machine off, cords out, strap on: take the module out and seat it again until "
                   "both latches click; then look in setup for slots switched off.")));
}

const LidRule lid_rule_not_seen = {
  .id = "not-seen",
  .title = N_ ("slot filled but not seen"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .no_moves = N_ ("The module sits where it should: it is seated again, and setup is looked at."),
  .why = N_ ("The slot is filled and the machine does not use what is in it: it reports no size, "
             "or the slot is switched off. Most often the module is not fully seated."),
  .clears = N_ (
      "Machine off, cords out, strap on: take the module out and seat it again until both latches "
      "click. Then look in setup for slots that an earlier fault switched off."),
  .basis = "inventory",
  .source = LID_COMMON_PRACTICE,
  .check = check_seen,
};
