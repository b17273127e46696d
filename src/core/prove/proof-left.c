/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof-left.c — which module of the job is in which slot after power-on. */
#include "prove/proof-private.h"

#include <string.h>

static gboolean
is_alike (const LidModule *a, const LidModule *b)
{
  return memcmp (a->value, b->value, sizeof a->value) == 0
         && memcmp (a->basis, b->basis, sizeof a->basis) == 0 && a->persistent == b->persistent
         && g_strcmp0 (a->part, b->part) == 0 && g_strcmp0 (a->serial, b->serial) == 0;
}

static gboolean
is_planned (const LidProof *proof, const LidModule *module)
{
  for (guint i = 0; i < proof->planned->n_slots; i++)
    if (proof->planned->slots[i].module == module)
      return TRUE;
  return FALSE;
}

/* A machine that is read again with the same difference has the same module there. */
static LidModule *
take_over (const LidProof *proof, LidJob *job, guint slot, LidModule *fresh)
{
  LidModule *before = job->as_left != NULL ? job->as_left->slots[slot].module : NULL;

  if (before == NULL || is_planned (proof, before) || !is_alike (before, fresh))
    return lid_job_add_module (job, fresh);
  lid_module_unref (fresh);
  return before;
}

/* The module of the plan: its label told more than the machine does, the machine its serial.
 * Another serial is another module, alike as they are. */
static LidModule *
with_serial (const LidProof *proof, LidJob *job, const LidProofSlot *slot, LidModule *own)
{
  const char *serial = slot->seen != NULL ? slot->seen->serial : NULL;
  LidModule *other;

  if (proof->is_other || !lid_proof_is_told_serial (serial)
      || (own->serial != NULL && g_ascii_strcasecmp (own->serial, serial) == 0))
    return own;
  if (own->serial == NULL)
    {
      lid_module_set_text (&own->serial, serial);
      return own;
    }
  other = lid_module_copy (own);
  lid_module_set_text (&other->serial, serial);
  return take_over (proof, job, (guint)slot->slot, other);
}

static LidModule *
module_in (const LidProof *proof, LidJob *job, const LidProofSlot *slot)
{
  gboolean is_elsewhere = proof->seen_in[slot->slot] != LID_NOWHERE;
  gboolean is_own
      = slot->planned != NULL && !is_elsewhere
        && (slot->seen == NULL || slot->verdict == LID_VERDICT_MISSING
            || slot->verdict == LID_VERDICT_SLOWER || !lid_verdict_is_difference (slot->verdict));

  if (is_own)
    return with_serial (proof, job, slot, slot->planned);
  return slot->seen != NULL
             ? take_over (proof, job, (guint)slot->slot, lid_module_copy (slot->seen))
             : NULL;
}

/**
 * lid_proof_modules_left:
 * @proof: a proof of a population of @job
 * @job: gets the modules it does not hold yet, and the serials its own have
 *
 * A module seen in another slot than planned is there and nowhere else. One that is not seen is in
 * its slot all the same, for all anybody knows.
 *
 * Returns: (transfer full): per slot of the board the module, borrowed, NULL for none; g_free() it
 */
LidModule **
lid_proof_modules_left (const LidProof *proof, LidJob *job)
{
  guint n = proof->board->n_slots;
  LidModule **left = g_new0 (LidModule *, n + 1);

  for (guint i = 0; i < n; i++)
    left[i] = proof->planned->slots[i].module;
  for (guint i = 0; i < proof->slots->len; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];
      gboolean is_settled = FALSE;

      if (slot->slot == LID_NOWHERE)
        continue;
      for (guint k = 0; k < n && !is_settled; k++)
        if (proof->seen_in[k] == slot->slot)
          {
            left[slot->slot] = with_serial (proof, job, slot, proof->planned->slots[k].module);
            is_settled = TRUE;
          }
      if (!is_settled)
        left[slot->slot] = module_in (proof, job, slot);
    }
  return left;
}
