/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof-eye.c — what a person reads on the setup screen, where nothing can be run on the machine: a
 * total, a rate, perhaps which slots are shown as filled. */
#include "prove/proof.h"

#include "base/error.h"
#include "board/slot-list.h"
#include "prove/proof-private.h"

#include <glib/gi18n-lib.h>

static void
judge (LidProofSlot *slot, gboolean ticked, gboolean by_total)
{
  g_autofree char *words = slot->planned != NULL ? lid_module_describe (slot->planned) : NULL;

  if (slot->planned == NULL && !ticked)
    {
      slot->verdict = LID_VERDICT_AS_PLANNED;
      slot->text = g_strdup (_ ("empty, as planned."));
    }
  else if (slot->planned == NULL)
    {
      slot->verdict = LID_VERDICT_NOT_PLANNED;
      slot->text = g_strdup (_ ("shown as filled; the plan leaves the slot empty."));
    }
  else if (ticked)
    {
      slot->verdict = LID_VERDICT_AS_PLANNED_AS_FAR_AS_TOLD;
      slot->text = g_strdup_printf (
          by_total ? _ ("%s is planned; the total that was read leaves nothing out.")
                   : _ ("%s is planned; the slot is shown as filled, with what nobody read."),
          words);
    }
  else
    {
      slot->verdict = LID_VERDICT_MISSING;
      slot->text = g_strdup_printf (_ ("%s is planned; not shown as filled."), words);
    }
}

static void
judge_all (LidProof *proof, const guint8 *ticked, gboolean by_total)
{
  for (guint i = 0; i < proof->board->n_slots; i++)
    judge (lid_proof_add_slot (proof, (int)i), ticked[i], by_total);
}

static gboolean
is_sane (const LidSeenByEye *eye, GError **error)
{
  if (eye->total_mib >= 0 || eye->runs != LID_RATE_UNKNOWN || eye->slots != NULL)
    return TRUE;
  g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                       _ ("nothing was read by eye; tell the total, the rate or the slots that "
                          "the setup screen shows"));
  return FALSE;
}

/**
 * lid_proof_new_by_eye:
 * @job: borrowed
 * @planned: as for lid_proof_new()
 * @eye: what was read; borrowed
 * @error: LID_ERROR_BAD_CALL: nothing was read; LID_ERROR_NOT_FOUND: a slot the board does not have
 *
 * Slots are judged only where somebody says which are shown as filled, or where the total tells
 * that none is missing.
 *
 * Returns: (transfer full) (nullable): the proof
 */
LidProof *
lid_proof_new_by_eye (const LidJob *job,
                      const LidPopulation *planned,
                      const LidSeenByEye *eye,
                      GError **error)
{
  g_autoptr (LidProof) proof = NULL;
  g_autofree guint8 *ticked = g_new0 (guint8, job->board->n_slots + 1);

  if (!is_sane (eye, error))
    return NULL;
  proof = lid_proof_begin (job, planned);
  proof->seen_mib = eye->total_mib;
  proof->runs = eye->runs;
  if (eye->slots != NULL && !lid_slot_list_mark (job->board, eye->slots, ticked, error))
    return NULL;
  for (guint i = 0; eye->slots == NULL && i < job->board->n_slots; i++)
    ticked[i] = planned->slots[i].module != NULL;
  if (eye->slots != NULL || (eye->total_mib >= 0 && lid_proof_is_total_as_planned (proof)))
    judge_all (proof, ticked, eye->slots == NULL);
  lid_proof_finish (proof);
  return g_steal_pointer (&proof);
}
