/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof-keep.c — what was seen after power-on becomes "as left" of the job. */
#include "prove/proof.h"

#include "base/units.h"
#include "prove/proof-private.h"

#include <glib/gi18n-lib.h>

/* A module planned here that the machine does not show is in the slot all the same, for all anybody
 * knows. */
static LidSlotState
state_left (const LidProof *proof, const LidProofSlot *slot, LidSlotState filled)
{
  if (slot->verdict == LID_VERDICT_MISSING || slot->state == LID_SLOT_NOT_SEEN)
    return LID_SLOT_NOT_SEEN;
  return slot->planned != NULL ? proof->planned->slots[slot->slot].state : filled;
}

static LidPopulation *
population_left (const LidProof *proof, LidJob *job)
{
  LidPopulation *left = lid_population_copy (proof->planned);
  g_autofree LidModule **modules = lid_proof_modules_left (proof, job);

  for (guint i = 0; i < proof->slots->len; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];
      LidFitting *fitting;

      if (slot->slot == LID_NOWHERE)
        continue;
      fitting = &left->slots[slot->slot];
      if (modules[slot->slot] == NULL)
        lid_population_take (left, (guint)slot->slot);
      else
        {
          lid_population_put (left, (guint)slot->slot, modules[slot->slot]);
          fitting->state = state_left (proof, slot, fitting->state);
          fitting->configured = slot->runs;
        }
    }
  if (proof->firmware != NULL)
    {
      g_free (left->firmware);
      left->firmware = g_strdup (proof->firmware);
    }
  return left;
}

static guint
count_differences (const LidProof *proof)
{
  guint n = 0;

  for (guint i = 0; i < proof->slots->len; i++)
    n += lid_verdict_is_difference (((const LidProofSlot *)proof->slots->pdata[i])->verdict);
  return n;
}

/* What somebody read on the setup screen, for the ticket. */
static void
remember_eye (const LidProof *proof, LidJob *job)
{
  g_autofree char *total = proof->seen_mib >= 0 ? lid_units_capacity_mb (proof->seen_mib) : NULL;
  g_autofree char *rate
      = proof->runs != LID_RATE_UNKNOWN ? lid_units_rate (proof->runs) : g_strdup (_ ("not read"));
  const char *words = total == NULL ? _ ("not read") : total;

  if (proof->matches)
    lid_job_remember (job, "proved",
                      _ ("read by eye after power-on as planned; total: %s; rate: %s"), words,
                      rate);
  else if (proof->differs)
    lid_job_remember (job, "proved",
                      _ ("read by eye after power-on: other than planned; total: %s; rate: %s"),
                      words, rate);
  else
    lid_job_remember (job, "proved",
                      _ ("read by eye after power-on, not enough to tell; total: %s; rate: %s"),
                      words, rate);
}

static void
remember_read (const LidProof *proof, LidJob *job)
{
  guint n = count_differences (proof);

  if (proof->matches)
    lid_job_remember (job, "proved", "%s", _ ("seen after power-on as planned"));
  else if (n > 0)
    lid_job_remember (job, "proved",
                      g_dngettext (GETTEXT_PACKAGE,
                                   "seen after power-on: %u slot is other than planned",
                                   "seen after power-on: %u slots are other than planned", n),
                      n);
  else
    lid_job_remember (job, "proved", "%s", _ ("seen after power-on, not enough to tell"));
}

/**
 * lid_proof_keep:
 * @proof: a proof of a population of @job
 * @job: gets "as left", whether that is proved and how, and a line in its history; a search for a
 *   fault is over once it is proved
 */
void
lid_proof_keep (const LidProof *proof, LidJob *job)
{
  LidPopulation *left = population_left (proof, job);

  lid_population_free (job->as_left);
  job->as_left = left;
  job->proved = proof->matches;
  if (proof->matches && job->trials->len > 0)
    ((LidTrial *)job->trials->pdata[job->trials->len - 1])->ended = TRUE;
  job->is_read_by_eye = proof->seen == NULL;
  job->eye_mib = proof->seen == NULL && proof->seen_mib > 0 ? proof->seen_mib : 0;
  if (proof->seen == NULL)
    remember_eye (proof, job);
  else
    remember_read (proof, job);
}
