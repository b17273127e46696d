/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* With the far slot empty its open line reflects the signal of the near one: fill the first slot
 * of a channel first (shared/facts/population.md 1, P1). */
static void
check_first (LidCheck *check)
{
  g_autofree char *names = NULL, *ends = NULL;
  LidSlotSet behind = { { 0 } }, first = { { 0 } }, mover = { { 0 } };
  LidFinding *finding;

  for (guint i = 0; i < check->n_live; i++)
    {
      guint slot = check->live[i];
      guint end;

      if (!lid_check_behind_empty (check, slot))
        continue;
      end = check->board->channels[check->board->slots[slot].channel].slots[0];
      lid_slot_set_add (&behind, slot);
      if (slot == check->survey->channels[check->board->slots[slot].channel].fitted[0])
        {
          lid_slot_set_add (&first, end);
          lid_slot_set_add (&mover, slot);
        }
    }
  if (lid_slot_set_is_empty (&behind))
    return;
  names = lid_names_slots (check, &behind);
  ends = lid_names_slots (check, &first);
  finding = lid_check_add (
      check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &behind,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                    "The first slot of the channel is empty (%s): by the rules "
                                    "what is in %s is not seen.",
                                    "The first slots of these channels are empty (%s): by the "
                                    "rules what is in %s is not seen.",
                                    lid_slot_set_count (&first)),
                       ends, names));
  lid_remedy_say (
      check, finding,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                    "Move the module to the first slot of its channel: %s.",
                                    "Move each module to the first slot of its channel: %s.",
                                    lid_slot_set_count (&first)),
                       ends));
  LID_SLOT_SET_EACH (&mover, slot)
    lid_remedy_move (check, finding, slot,
                     (int)check->board->channels[check->board->slots[slot].channel].slots[0]);
}

const LidRule lid_rule_first_slot = {
  .id = "first-slot",
  .title = N_ ("first slot of a channel first"),
  .scope = LID_SCOPE_CHANNEL,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .why = N_ ("The first slot of a channel lies at the far end of the line. With it empty, the open "
             "line behind the near module throws the signal back; nearly every board asks for the "
             "first slot first and does not see what sits behind an empty one."),
  .clears = N_ ("Move the module to the first slot of its channel."),
  .basis = "physics",
  .source = "B. Jacob, S. Ng, D. Wang, Memory Systems, 2008: DRAM bus signalling, from memory",
  .check = check_first,
};
