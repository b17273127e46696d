/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* What a module is tall that does not tell: JEDEC's standard height of its generation (30.00 mm for
 * DDR3, 31.25 mm for DDR4 and DDR5). Lower ones fit too; taller ones are no standard module. Only
 * where that would not fit either is the height asked for. */
static gint32
standard_height (const LidModule *module)
{
  return lid_module_generation (module) == LID_GENERATION_DDR3 ? 3000 : 3125;
}

static void
check_height (LidCheck *check)
{
  g_autofree char *names = NULL;
  LidSlotSet slots = { { 0 } };
  gint32 tallest = 0, least = G_MAXINT32;
  LidFinding *finding;

  for (guint i = 0; i < check->survey->n_fitted; i++)
    {
      guint slot = check->survey->fitted[i];
      gint32 room = lid_board_clearance (check->board, slot);
      const LidModule *module = lid_check_module (check, slot);

      if (room <= 0 || check->board->slots[slot].soldered != NULL)
        continue;
      if (!lid_module_knows (module, LID_FACT_HEIGHT))
        {
          if (standard_height (module) > room && lid_check_form (module) != LID_FORM_SO_DIMM)
            lid_check_miss (check, LID_FACT_HEIGHT, slot);
        }
      else if (module->value[LID_FACT_HEIGHT] > room)
        {
          lid_slot_set_add (&slots, slot);
          tallest = MAX (tallest, module->value[LID_FACT_HEIGHT]);
          least = MIN (least, room);
        }
    }
  if (tallest == 0)
    return;
  names = lid_names_slots (check, &slots);
  finding = lid_check_add (
      check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &slots,
      g_strdup_printf (_ ("What is in %s is %d.%02d mm tall, and there is room for "
                          "%d.%02d mm under the lid."),
                       names, tallest / 100, tallest % 100, least / 100, least % 100));
  lid_remedy_say (check, finding,
                  g_strdup_printf (_ ("Fit low-profile modules, at most %d.%02d mm tall, or leave "
                                      "%s empty."),
                                   least / 100, least % 100, names));
  LID_SLOT_SET_EACH (&slots, slot)
    lid_remedy_move (check, finding, slot, LID_NOWHERE);
}

const LidRule lid_rule_too_tall = {
  .id = "too-tall",
  .title = N_ ("height that does not fit"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_EXCHANGE,
  .why = N_ ("Under a lid or beside another part there is only so much room. A taller module keeps "
             "the lid from closing or bends, and no air passes above it."),
  .clears = N_ ("Fit a lower module. Where its height is not told, measure it from the contact "
                "edge to the top."),
  .facts = LID_FACT_BIT (LID_FACT_HEIGHT),
  .basis = "physics",
  .source = "JEDEC MO-309 (DDR4 module outline): standard height 31.25 mm; MO-269 (DDR3): "
            "30.00 mm, from memory",
  .check = check_height,
};
