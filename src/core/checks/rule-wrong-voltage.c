/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "checks/words.h"

#include <glib/gi18n-lib.h>

/* What every module of a generation can run at, told or not. Source: shared/facts/standards.md 4:
 * DDR3L runs at 1.5 V too, DDR4 has 1.2 V only, DDR5 1.1 V only. */
static guint32
can_run_at (const LidModule *module, gboolean *told)
{
  *told = lid_module_knows (module, LID_FACT_VOLTAGE);
  if (*told)
    return (guint32)module->value[LID_FACT_VOLTAGE];
  switch ((int)lid_module_generation (module))
    {
    case LID_GENERATION_DDR3:
      return LID_VOLTAGE_1500;
    case LID_GENERATION_DDR4:
      return LID_VOLTAGE_1200;
    case LID_GENERATION_DDR5:
      return LID_VOLTAGE_1100;
    default:
      return 0;
    }
}

static void
check_voltage (LidCheck *check)
{
  guint32 given = check->board->voltages, wanted = 0;
  g_autofree char *names = NULL, *gives = NULL, *wants = NULL;
  LidSlotSet slots = { { 0 } };

  if (given == 0)
    return;
  for (guint i = 0; i < check->survey->n_fitted; i++)
    {
      guint slot = check->survey->fitted[i];
      gboolean told;
      guint32 can = can_run_at (lid_check_module (check, slot), &told);

      if ((can & given) || check->board->slots[slot].soldered != NULL
          || !lid_check_fits (check, slot))
        continue;
      if (!told)
        {
          lid_check_miss (check, LID_FACT_VOLTAGE, slot);
          continue;
        }
      lid_slot_set_add (&slots, slot);
      wanted |= can;
    }
  if (lid_slot_set_is_empty (&slots))
    return;
  names = lid_names_slots (check, &slots);
  gives = lid_words_voltages (given);
  wants = lid_words_voltages (wanted);
  lid_remedy_take_out (
      check,
      lid_check_add (check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &slots,
                     g_strdup_printf (_ ("What is in %s needs %s, and the board gives %s."), names,
                                      wants, gives)),
      &slots);
}

const LidRule lid_rule_wrong_voltage = {
  .id = "wrong-voltage",
  .title = N_ ("voltage that does not fit"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_EXCHANGE,
  .why = N_ ("A module works at the voltages it is made for. Where the board supplies none of "
             "them, nothing can be said for the slot, and it is not counted."),
  .clears = N_ ("Fit modules made for a voltage that the board supplies."),
  .facts = LID_FACT_BIT (LID_FACT_VOLTAGE),
  .basis = "physics",
  .source = "JEDEC JESD79-3, JESD79-4, JESD79-5: supply voltage, from memory",
  .check = check_voltage,
};
