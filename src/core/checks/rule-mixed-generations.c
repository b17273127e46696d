/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/rules.h"
#include "checks/words.h"

#include <glib/gi18n-lib.h>

/* Where the board does not tell its generation, one thing is still sure: its slots take one. */
static void
check_generations (LidCheck *check)
{
  guint32 seen = 0, most_of = 0;
  guint count[LID_N_GENERATIONS] = { 0 };
  g_autofree char *names = NULL, *found = NULL;
  LidSlotSet slots = { { 0 } };

  if (check->board->generations != 0
      || !((check->varying | check->missing) & LID_FACT_BIT (LID_FACT_GENERATION)))
    return;
  for (guint i = 0; i < check->n_dram; i++)
    {
      LidGeneration generation = lid_module_generation (lid_check_module (check, check->dram[i]));

      if (generation == LID_GENERATION_UNKNOWN)
        {
          if (!check->all_same)
            lid_check_miss (check, LID_FACT_GENERATION, check->dram[i]);
          continue;
        }
      seen |= 1u << generation;
      count[generation]++;
      if (count[generation] > count[most_of])
        most_of = generation;
    }
  if ((seen & (seen - 1)) == 0)
    return;
  for (guint i = 0; i < check->n_dram; i++)
    {
      LidGeneration generation = lid_module_generation (lid_check_module (check, check->dram[i]));

      if (generation != LID_GENERATION_UNKNOWN && generation != most_of)
        lid_slot_set_add (&slots, check->dram[i]);
    }
  found = lid_words_generations (seen);
  names = lid_names_slots (check, &slots);
  lid_check_add (check, LID_GRADE_STOPS, LID_STOPS_MACHINE, &slots,
                 g_strdup_printf (_ ("%s do not fit the same slots: the notches differ; either %s "
                                     "or all the others cannot be there."),
                                  found, names));
}

const LidRule lid_rule_mixed_generations = {
  .id = "mixed-generations",
  .title = N_ ("generations mixed"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .no_moves = N_ ("A board has slots of one generation only: the fact is put right, or the module "
                  "is taken out of a job it cannot be in."),
  .why = N_ ("All slots of a board take one generation: the notch, the voltage and the signals of "
             "the others differ. Where the job shows two of them, a fact is wrong or a module is "
             "not where the job says."),
  .clears
  = N_ ("Look at the labels and tell the right fact, or take the modules of one generation out."),
  .facts = LID_FACT_BIT (LID_FACT_GENERATION),
  .basis = "physics",
  .source = "JEDEC MO-309 (DDR4 module outline): key position; MO-269 (DDR3) and MO-329 (DDR5) "
            "from memory",
  .check = check_generations,
};
