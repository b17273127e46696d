/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mode-refusal.h"

#include "figures/mode-words.h"

#include <glib/gi18n-lib.h>

/**
 * lid_mode_refusal_met:
 * @check: the context, in the figures phase
 * @demand: a demand of the memory mode
 * @slots: (out): where it is not met; empty where it is a matter of the whole machine
 *
 * Returns: whether the demand is met, or not made
 */
gboolean
lid_mode_refusal_met (const LidCheck *check, LidDemand demand, LidSlotSet *slots)
{
  const LidModeFigures *mode = &check->figures->mode;

  *slots = (LidSlotSet){ { 0 } };
  if ((mode->unmet >> demand & 1) == 0)
    return TRUE;
  for (guint i = 0; i < check->board->n_slots; i++)
    if ((mode->unmet_at[i] >> demand & 1) == 1)
      lid_slot_set_add (slots, i);
  return FALSE;
}

/* The mode's own row; of a mode that is not in the table, the table it is absent from: that of the
 * first that tells where it is from. Only where none does, that of the definition. */
static const char *
source_of (const LidBoard *board, const LidBoardMode *rule, const char *otherwise)
{
  if (rule != NULL && rule->source != NULL)
    return rule->source;
  for (guint i = 0; i < board->n_modes; i++)
    if (board->modes[i].source != NULL)
      return board->modes[i].source;
  return board->source != NULL ? board->source : otherwise;
}

/**
 * lid_mode_refusal_add:
 * @check: the context
 * @slots: (nullable): where
 * @reason: (transfer full): one sentence on the demand that is not met
 *
 * A mode whose demands are not met is refused, and plain figures hold: grade loses (product.md 6;
 * shared/facts/population.md 3, trap 4).
 *
 * Returns: (transfer none): the finding, for its remedy
 */
LidFinding *
lid_mode_refusal_add (LidCheck *check, const LidSlotSet *slots, char *reason)
{
  const LidBoardMode *rule = lid_board_find_mode (check->board, check->population->mode);
  g_autofree char *words = lid_mode_words_new (check->population);
  LidFinding *finding = lid_check_add (
      check, LID_GRADE_LOSES, LID_STOPS_NOTHING, slots,
      g_strdup_printf (_ ("%s The mode asked for, %s, is refused: the machine starts in plain "
                          "mode, unprotected."),
                       reason, words));

  finding->source = source_of (check->board, rule, finding->source);
  g_free (reason);
  return finding;
}

/**
 * lid_mode_refusal_ask:
 * @check: the context
 * @demand: a demand
 *
 * Where the demand hangs on facts that are not told, asks for them: never a silent pass.
 */
void
lid_mode_refusal_ask (LidCheck *check, LidDemand demand)
{
  const LidModeFigures *mode = &check->figures->mode;

  if (mode->effect != LID_EFFECT_UNSURE || (mode->open >> demand & 1) == 0)
    return;
  for (guint i = 0; i < check->board->n_slots; i++)
    for (guint32 left = mode->missed_at[i]; left != 0; left &= left - 1)
      lid_check_miss (check, (LidFact)__builtin_ctz (left), i);
}
