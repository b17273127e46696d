/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

static void
check_ecc (LidCheck *check)
{
  g_autofree char *names = NULL;
  LidSlotSet slots = { { 0 } };

  if (!check->board->needs_ecc)
    return;
  for (guint i = 0; i < check->n_dram; i++)
    {
      guint slot = check->dram[i];
      const LidModule *module = lid_check_module (check, slot);
      LidKind kind = lid_module_kind (module);

      if (!lid_check_fits (check, slot)
          || (kind != LID_KIND_UNKNOWN && check->board->kinds != 0
              && !(check->board->kinds & (1u << kind))))
        continue;
      if (!lid_module_knows (module, LID_FACT_ECC))
        lid_check_miss (check, LID_FACT_ECC, slot);
      else if (module->value[LID_FACT_ECC] == 0)
        lid_slot_set_add (&slots, slot);
    }
  if (lid_slot_set_is_empty (&slots))
    return;
  names = lid_names_slots (check, &slots);
  lid_remedy_take_out (
      check,
      lid_check_add (check, LID_GRADE_STOPS, LID_STOPS_MACHINE, &slots,
                     g_strdup_printf (_ ("What is in %s has no check bits: the board needs ECC and "
                                         "by the rules does not start without."),
                                      names)),
      &slots);
}

const LidRule lid_rule_no_ecc = {
  .id = "no-ecc",
  .title = N_ ("no ECC where the board needs it"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .cures = LID_CURE_EXCHANGE,
  .why = N_ ("The board's definition says that it works only with modules that carry check bits "
             "(ECC). Without them it does not start."),
  .clears = N_ ("Exchange these modules for ones with ECC."),
  .facts = LID_FACT_BIT (LID_FACT_ECC),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_ecc,
};
