/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/rules.h"
#include "figures/power.h"

#include <glib/gi18n-lib.h>

/* Source: shared/facts/population.md 5, last point: modules that draw much may need other fans, a
 * baffle or cooler air, and which is the board's (common practice). Watts are figures to plan with:
 * the middle of what was published of modules alike; a fact that is not told is asked for where it
 * could lift a module above the board's bound. */
static void
check_need (LidCheck *check, const LidAirflowNeed *need)
{
  const gint32 bound = (gint32)need->above_w * 1000;
  g_autofree char *names = NULL;
  LidSlotSet slots = { { 0 } };
  LidFinding *finding;
  gint32 most = 0;

  for (guint i = 0; i < check->survey->n_fitted; i++)
    {
      guint slot = check->survey->fitted[i];
      LidPower power;

      if (check->board->slots[slot].soldered != NULL)
        continue;
      power = lid_power_module (check->board, lid_check_module (check, slot),
                                check->population->setup_mv);
      if (power.plan_mw > bound)
        {
          lid_slot_set_add (&slots, slot);
          most = MAX (most, power.plan_mw);
        }
      else if (power.most_mw > bound)
        for (guint32 left = power.missing; left != 0; left &= left - 1)
          lid_check_miss (check, (LidFact)__builtin_ctz (left), slot);
    }
  if (most == 0)
    return;
  names = lid_names_slots (check, &slots);
  finding = lid_check_add (
      check, LID_GRADE_NOTE, LID_STOPS_NOTHING, &slots,
      g_strdup_printf (_ ("What is in %s draws about %d W a module when busy, to plan with; above "
                          "%u W this board needs %s."),
                       names, (most + 500) / 1000, need->above_w, need->needs));
  finding->source = need->source;
}

static void
check_cooling (LidCheck *check)
{
  for (guint i = 0; i < check->board->n_airflow_needs; i++)
    check_need (check, &check->board->airflow_needs[i]);
}

const LidRule lid_rule_cooling = {
  .id = "cooling",
  .title = N_ ("what modules that draw much need"),
  .scope = LID_SCOPE_MODULE,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_NOTE),
  .no_moves = N_ ("Wherever such a module sits, it draws the same."),
  .why = N_ ("What a module draws it gives off as heat. Modules of many chips or with buffers draw "
             "several times what plain ones do, and some boards want other fans, a baffle or "
             "cooler air for them: hot chips refresh more often and make more errors."),
  .clears
  = N_ ("Give the board what it needs, or fit modules that draw less. The watts are figures "
        "to plan with; nobody prints them on a module."),
  .facts = LID_FACT_BIT (LID_FACT_GENERATION) | LID_FACT_BIT (LID_FACT_KIND)
           | LID_FACT_BIT (LID_FACT_CAPACITY) | LID_FACT_BIT (LID_FACT_STACK),
  .basis = "common practice",
  .source = LID_COMMON_PRACTICE,
  .check = check_cooling,
};
