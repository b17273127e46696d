/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "checks/words.h"

#include <glib/gi18n-lib.h>

/* The key of each generation stands elsewhere, so the module does not go in. */
static void
check_generation (LidCheck *check)
{
  const LidSurvey *survey = check->survey;
  guint32 taken = check->board->generations, wrong = 0;
  g_autofree char *names = NULL, *takes = NULL, *found = NULL;
  LidSlotSet slots = { { 0 } };

  if (taken == 0 || (survey->generations & ~taken) == 0)
    return;
  for (guint i = 0; i < survey->n_fitted; i++)
    {
      guint slot = survey->fitted[i];
      LidGeneration generation = lid_module_generation (lid_check_module (check, slot));

      if (check->board->slots[slot].soldered != NULL)
        continue;
      if (generation == LID_GENERATION_UNKNOWN)
        lid_check_miss (check, LID_FACT_GENERATION, slot);
      else if (!(taken & (1u << generation)))
        {
          lid_slot_set_add (&slots, slot);
          wrong |= 1u << generation;
        }
    }
  if (wrong == 0)
    return;
  names = lid_names_slots (check, &slots);
  takes = lid_words_generations (taken);
  found = lid_words_generations (wrong);
  lid_remedy_take_out (
      check,
      lid_check_add (check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &slots,
                     g_strdup_printf (_ ("What is in %s is %s and does not go in: the board takes "
                                         "%s, and the notch stands elsewhere."),
                                      names, found, takes)),
      &slots);
}

const LidRule lid_rule_wrong_generation = {
  .id = "wrong-generation",
  .title = N_ ("generation that does not fit"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_GOES_IN,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_EXCHANGE,
  .why = N_ ("The notch of each DDR generation stands at another place, so that a module of "
             "another one does not go into the slot. Forced, it breaks contacts or slot; voltage "
             "and signals differ as well."),
  .clears = N_ ("Take the module out. Only modules of the generation that the board takes go in."),
  .facts = LID_FACT_BIT (LID_FACT_GENERATION),
  .basis = "physics",
  .source = "JEDEC MO-309 (DDR4 module outline): key position; MO-269 (DDR3) and MO-329 (DDR5) "
            "from memory",
  .check = check_generation,
};
