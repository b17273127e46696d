/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "checks/words.h"

#include <glib/gi18n-lib.h>

/* The key: told only where the standard makes it differ. */
static void
check_key (LidCheck *check)
{
  guint32 wrong = lid_check_kinds_by_key (check), found = 0;
  g_autofree char *names = NULL, *kinds = NULL;
  LidSlotSet slots = { { 0 } };
  LidFinding *finding;

  for (guint i = 0; i < check->n_dram && wrong != 0; i++)
    {
      const LidModule *module = lid_check_module (check, check->dram[i]);
      LidGeneration generation = lid_module_generation (module);
      LidKind kind = lid_module_kind (module);

      if (kind == LID_KIND_UNKNOWN)
        lid_check_miss (check, LID_FACT_KIND, check->dram[i]);
      if ((wrong & 1u << kind) == 0)
        continue;
      if (generation == LID_GENERATION_UNKNOWN)
        lid_check_miss (check, LID_FACT_GENERATION, check->dram[i]);
      if (generation != LID_GENERATION_DDR5)
        continue;
      lid_slot_set_add (&slots, check->dram[i]);
      found |= 1u << kind;
    }
  if (lid_slot_set_is_empty (&slots))
    return;
  names = lid_names_slots (check, &slots);
  kinds = lid_words_kinds (found);
  finding = lid_check_add (
      check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &slots,
      g_strdup_printf (
          _ ("What is in %s is %s and does not go in: DDR5 modules with a register and "
             "those without have their notch in different places, and another supply "
             "voltage. Do not force them."),
          names, kinds));
  finding->source = "ServeTheHome, Why DDR5 is absolutely necessary in modern servers: keys";
  lid_remedy_take_out (check, finding, &slots);
}

static void
check_form (LidCheck *check)
{
  g_autofree char *names = NULL;
  LidSlotSet slots = { { 0 } };

  check_key (check);
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
                  ? _ ("What is in %s does not go in: the slot takes the short SO-DIMM, 68 to 70 "
                       "mm long.")
                  : _ ("What is in %s does not go in: the slot takes the DIMM, 133 mm long."),
              names)),
      &slots);
}

const LidRule lid_rule_wrong_form = {
  .id = "wrong-form",
  .title = N_ ("form that does not fit"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_GOES_IN,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_EXCHANGE,
  .why
  = N_ ("A DIMM is 133 mm long, an SO-DIMM 68 to 70 mm: neither goes into the slot of the other. "
        "Of DDR5, modules with a register and those without have their notch in different places "
        "too."),
  .clears = N_ ("Take the module out and fit one of the form that the slot takes."),
  .facts = LID_FACT_BIT (LID_FACT_FORM) | LID_FACT_BIT (LID_FACT_KIND)
           | LID_FACT_BIT (LID_FACT_GENERATION),
  .basis = "physics",
  .source = "JEDEC MO-309 (DDR4 module outline); length of an SO-DIMM from memory",
  .check = check_form,
};
