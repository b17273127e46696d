/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/rules.h"
#include "checks/words.h"

#include <glib/gi18n-lib.h>

/* What a module can run at here, bits; 0: not told. */
static guint32
takes (const LidCheck *check, guint slot)
{
  const LidModule *module = lid_check_module (check, slot);
  guint32 can
      = lid_module_knows (module, LID_FACT_VOLTAGE) ? (guint32)module->value[LID_FACT_VOLTAGE] : 0;

  return check->board->voltages != 0 ? can & check->board->voltages : can;
}

/* What setup is set to, where the board supplies that; 0: automatic, or nothing that is there. */
static guint
asked_for (const LidCheck *check)
{
  guint set = check->population->setup_mv;

  if (check->board->voltages != 0 && (check->board->voltages & lid_voltage_from_mv (set)) == 0)
    return 0;
  return set;
}

static void
speak (LidCheck *check, const LidSlotSet *high, guint32 common, guint lowest)
{
  g_autofree char *names = lid_names_slots (check, high);
  g_autofree char *runs = lid_words_voltages (lid_voltage_from_mv (lid_voltage_lowest_mv (common)));
  g_autofree char *could = lid_words_voltages (lid_voltage_from_mv (lowest));

  lid_check_add (
      check, LID_GRADE_NOTE, LID_STOPS_NOTHING, high,
      check->population->setup_mv != 0
          ? g_strdup_printf (_ ("Setup is set to %s, and what is in %s needs %s, so all modules "
                                "run at that voltage."),
                             could, names, runs)
          : g_strdup_printf (_ ("What is in %s needs %s, so all modules run at that voltage, "
                                "those that could run at %s too."),
                             names, runs, could));
}

/* All modules run at one voltage, so one that needs the higher takes the others up to it
 * (shared/facts/population.md 1.1: 1.5 V + 1.35 V, all go to 1.5 V), and setup too: the lower one
 * only if setup allows it and every fitted module can (product.md 6, settled reading 5). Modules
 * that have no voltage in common are another rule's. A board of one voltage leaves nothing to
 * decide: whether a module takes that one is rule-wrong-voltage.c's question. */
static void
check_voltages (LidCheck *check)
{
  LidSlotSet high = { { 0 } };
  guint32 common = G_MAXUINT32;
  guint lowest = asked_for (check);

  if (__builtin_popcount (check->board->voltages) == 1)
    return;
  if (check->population->setup_mv == 0
      && !((check->varying | check->missing) & LID_FACT_BIT (LID_FACT_VOLTAGE)))
    return;
  for (guint i = 0; i < check->n_dram; i++)
    {
      guint32 can = takes (check, check->dram[i]);
      guint mv = lid_voltage_lowest_mv (can);

      if (can == 0)
        continue;
      common &= can;
      if (check->population->setup_mv == 0)
        lowest = lowest == 0 ? mv : MIN (lowest, mv);
    }
  if (lowest == 0)
    return;
  for (guint i = 0; i < check->n_dram; i++)
    if (!lid_module_knows (lid_check_module (check, check->dram[i]), LID_FACT_VOLTAGE))
      {
        if (lid_module_generation (lid_check_module (check, check->dram[i])) == LID_GENERATION_DDR3)
          lid_check_miss (check, LID_FACT_VOLTAGE, check->dram[i]);
      }
    else if ((takes (check, check->dram[i]) & lid_voltage_from_mv (lowest)) == 0)
      lid_slot_set_add (&high, check->dram[i]);
  if (common != 0 && lid_voltage_lowest_mv (common) > lowest && !lid_slot_set_is_empty (&high))
    speak (check, &high, common, lowest);
}

const LidRule lid_rule_mixed_voltages = {
  .id = "mixed-voltages",
  .title = N_ ("voltages mixed"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_NOTE),
  .no_moves
  = N_ ("It runs so, only warmer; whether that is worth an exchange is the owner's word."),
  .why
  = N_ ("All modules get one voltage. One that needs the higher takes all others up to it, and "
        "they take more power than they could."),
  .clears = N_ ("Nothing needs doing. With only modules for the lower voltage the machine runs "
                "cooler; the board's rate table may hold other rates for it."),
  .facts = LID_FACT_BIT (LID_FACT_VOLTAGE),
  .basis = "standard",
  .source = "JEDEC JESD79-3-1 (1.35 V addendum), from memory",
  .check = check_voltages,
};
