/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof-keep.c — what was seen after power-on becomes "as left" of the job. */
#include "prove/proof.h"

#include "prove/proof-private.h"

#include <glib/gi18n-lib.h>

/* The module of the plan where nothing speaks against it: its label told more than the machine
 * does. Else what the machine reports, as a module of its own. */
static LidModule *
module_left (LidJob *job, const LidProofSlot *slot)
{
  if (slot->planned != NULL
      && (slot->seen == NULL || slot->verdict == LID_VERDICT_MISSING
          || slot->verdict == LID_VERDICT_SLOWER || !lid_verdict_is_difference (slot->verdict)))
    return slot->planned;
  return slot->seen != NULL ? lid_job_add_module (job, lid_module_copy (slot->seen)) : NULL;
}

/* A module planned here that the machine does not show is in the slot all the same, for all anybody
 * knows. */
static LidSlotState
state_left (const LidProof *proof, const LidProofSlot *slot)
{
  if (slot->verdict == LID_VERDICT_MISSING)
    return LID_SLOT_NOT_SEEN;
  if (slot->planned != NULL)
    return proof->planned->slots[slot->slot].state;
  return slot->state;
}

static LidPopulation *
population_left (const LidProof *proof, LidJob *job)
{
  LidPopulation *left = lid_population_copy (proof->planned);

  for (guint i = 0; i < proof->slots->len; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];
      LidModule *module;

      if (slot->slot == LID_NOWHERE)
        continue;
      module = module_left (job, slot);
      if (module == NULL)
        lid_population_take (left, (guint)slot->slot);
      else
        {
          lid_population_put (left, (guint)slot->slot, module);
          left->slots[slot->slot].state = state_left (proof, slot);
          left->slots[slot->slot].configured = slot->runs;
        }
    }
  if (proof->firmware != NULL)
    {
      g_free (left->firmware);
      left->firmware = g_strdup (proof->firmware);
    }
  return left;
}

/**
 * lid_proof_keep:
 * @proof: a proof of a population of @job
 * @job: gets "as left", whether that is proved, and a line in its history
 */
void
lid_proof_keep (const LidProof *proof, LidJob *job)
{
  LidPopulation *left = population_left (proof, job);
  guint n = 0;

  for (guint i = 0; i < proof->slots->len; i++)
    n += lid_verdict_is_difference (((const LidProofSlot *)proof->slots->pdata[i])->verdict);
  lid_population_free (job->as_left);
  job->as_left = left;
  job->proved = proof->matches;
  if (proof->matches)
    lid_job_remember (job, "proved", "%s",
                      proof->seen != NULL ? _ ("seen after power-on as planned")
                                          : _ ("read by eye after power-on as planned"));
  else if (n == 0)
    lid_job_remember (job, "proved", "%s", _ ("read by eye after power-on: other than planned"));
  else
    lid_job_remember (job, "proved",
                      g_dngettext (GETTEXT_PACKAGE,
                                   "seen after power-on: %u slot is other than planned",
                                   "seen after power-on: %u slots are other than planned", n),
                      n);
}
