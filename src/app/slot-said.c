/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/slot-said.h"

#include "app/slot-words.h"

/**
 * lid_slot_said_words:
 *
 * Returns: (transfer full): what sits in the slot and what is to be said of it
 */
char *
lid_slot_said_words (LidBoardArea *area, guint slot)
{
  LidJobModel *model = lid_hands_get_model (lid_board_area_get_hands (area));

  return lid_slot_words_describe (
      lid_job_model_get_job (model)->board, lid_board_area_get_population (area),
      lid_job_model_get_assessment (model), lid_board_area_get_changes (area), slot);
}

/* Whether the words would be the ones said last; keeps what they are made of. Modules do not
 * change: what is learnt of one makes another one. */
static gboolean
is_same (LidSlotSaid *said, LidBoardArea *area, guint slot, guint findings)
{
  const LidFitting *fitting = &lid_board_area_get_population (area)->slots[slot];
  const LidChanges *changes = lid_board_area_get_changes (area);
  LidSlotChange change = { NULL };
  gboolean same;

  if (changes != NULL)
    change = changes->slots[slot];
  same = said->any && said->module == fitting->module && said->state == fitting->state
         && said->findings == findings && said->change.kind == change.kind
         && said->change.from == change.from && said->change.to == change.to
         && (said->change.mat > 0) == (change.mat > 0);
  if (fitting->module != NULL)
    lid_module_ref (fitting->module);
  lid_module_unref (said->module);
  said->module = fitting->module;
  said->state = fitting->state;
  said->change = change;
  said->findings = findings;
  said->any = TRUE;
  return same;
}

/**
 * lid_slot_said_refresh:
 * @widget: the slot's
 * @findings: of lid_slot_words_hash_findings()
 *
 * Tells a screen reader, where there is something else to tell.
 */
void
lid_slot_said_refresh (
    LidSlotSaid *said, GtkWidget *widget, LidBoardArea *area, guint slot, guint findings)
{
  const LidAssessment *assessment
      = lid_job_model_get_assessment (lid_hands_get_model (lid_board_area_get_hands (area)));
  g_autofree char *words = NULL;
  gboolean any = FALSE, invalid;

  if (is_same (said, area, slot, findings))
    return;
  words = lid_slot_said_words (area, slot);
  invalid = assessment != NULL && lid_slot_words_worst (assessment, slot, &any) == LID_GRADE_STOPS
            && any;
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  words, -1);
  gtk_accessible_update_state (
      GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_STATE_CHECKED,
      said->module != NULL ? GTK_ACCESSIBLE_TRISTATE_TRUE : GTK_ACCESSIBLE_TRISTATE_FALSE,
      GTK_ACCESSIBLE_STATE_INVALID,
      invalid ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
}
