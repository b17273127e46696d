/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

static void
check_form (LidCheck *check)
{
  g_autofree char *names = NULL;
  LidSlotSet slots = { { 0 } };

  if (check->forms == 0)
    return;
  for (guint i = 0; i < check->survey->n_fitted; i++)
    {
      guint slot = check->survey->fitted[i];
      const LidModule *module = lid_check_module (check, slot);
      LidForm form = lid_check_form (module);

      if (check->board->slots[slot].soldered != NULL || module->persistent)
        continue;
      if (form == LID_FORM_UNKNOWN)
        lid_check_miss (check, LID_FACT_FORM, slot);
      else if (!(check->forms & (1u << form)))
        lid_slot_set_add (&slots, slot);
    }
  if (lid_slot_set_is_empty (&slots))
    return;
  names = lid_names_slots (check, &slots);
  lid_remedy_take_out (
      check,
      lid_check_add (
          check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &slots,
          g_strdup_printf (
              check->forms & (1u << LID_FORM_SO_DIMM)
                  ? _ (
                      "What is in %s does not go in: the slot takes the short SO-DIMM, 68 mm long.")
                  : _ ("What is in %s does not go in: the slot takes the DIMM, 133 mm long."),
              names)),
      &slots);
}

const LidRule lid_rule_wrong_form = {
  .id = "wrong-form",
  .title = N_ ("form that does not fit"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_EXCHANGE,
  .why = N_ ("A DIMM is 133 mm long, an SO-DIMM 68 mm: neither goes into the slot of the other."),
  .clears = N_ ("Take the module out and fit one of the form that the slot takes."),
  .facts = LID_FACT_BIT (LID_FACT_FORM),
  .basis = "physics",
  .source = "JEDEC MO-309 (DDR4 module outline); length of an SO-DIMM from memory",
  .check = check_form,
};
