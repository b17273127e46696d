/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/remedy.h"
#include "checks/names.h"

#include <glib/gi18n-lib.h>

/**
 * lid_remedy_say:
 * @check: at work
 * @finding: a finding without a remedy
 * @text: (transfer full): what to do, one sentence; dropped where nobody asks for remedies
 */
void
lid_remedy_say (const LidCheck *check, LidFinding *finding, char *text)
{
  g_assert (finding->remedy == NULL);
  if (check->plain)
    {
      g_free (text);
      return;
    }
  finding->remedy = g_new0 (LidRemedy, 1);
  finding->remedy->text = text;
  finding->remedy->moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
}

/**
 * lid_remedy_move:
 * @check: whose population
 * @finding: a finding whose remedy has its words
 * @from: the slot whose module moves
 * @to: where it goes, LID_NOWHERE: onto the tray
 *
 * Does nothing where nobody asks for remedies.
 */
void
lid_remedy_move (const LidCheck *check, LidFinding *finding, int from, int to)
{
  LidMove move = { check->population->slots[from].module, from, to };

  if (check->plain)
    return;
  lid_module_ref (move.module);
  g_array_append_val (finding->remedy->moves, move);
}

/**
 * lid_remedy_take_out:
 * @check: whose population
 * @finding: a finding without a remedy
 * @slots: the slots to empty
 *
 * The plainest remedy: leave those modules out.
 */
void
lid_remedy_take_out (const LidCheck *check, LidFinding *finding, const LidSlotSet *slots)
{
  g_autofree char *names = NULL;

  if (check->plain)
    return;
  names = lid_names_slots (check, slots);
  lid_remedy_say (check, finding, g_strdup_printf (_ ("Leave %s empty."), names));
  LID_SLOT_SET_EACH (slots, slot)
    if (check->population->slots[slot].module != NULL)
      lid_remedy_move (check, finding, slot, LID_NOWHERE);
}

/**
 * lid_remedy_apply:
 * @remedy: a remedy with moves
 * @population: the population its finding was about
 *
 * Returns: (transfer full): the population after the moves; all pulls come before all fits, so
 * that modules may change places
 */
LidPopulation *
lid_remedy_apply (const LidRemedy *remedy, const LidPopulation *population)
{
  LidPopulation *after = lid_population_copy (population);

  for (guint i = 0; i < remedy->moves->len; i++)
    {
      const LidMove *move = &g_array_index (remedy->moves, LidMove, i);

      if (move->from != LID_NOWHERE)
        lid_population_take (after, (guint)move->from);
    }
  for (guint i = 0; i < remedy->moves->len; i++)
    {
      const LidMove *move = &g_array_index (remedy->moves, LidMove, i);

      if (move->to != LID_NOWHERE)
        lid_population_put (after, (guint)move->to, move->module);
    }
  return after;
}

/**
 * lid_remedy_free:
 * @remedy: (nullable): a remedy
 */
void
lid_remedy_free (LidRemedy *remedy)
{
  if (remedy == NULL)
    return;
  for (guint i = 0; i < remedy->moves->len; i++)
    lid_module_unref (g_array_index (remedy->moves, LidMove, i).module);
  g_array_unref (remedy->moves);
  g_free (remedy->text);
  g_free (remedy);
}
