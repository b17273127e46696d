/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/trial.h"

#include <string.h>

static const char *const outcomes[LID_N_OUTCOMES] = { "clean", "fault", "inconclusive" };

const char *
lid_outcome_to_text (LidOutcome outcome)
{
  g_return_val_if_fail ((guint)outcome < LID_N_OUTCOMES, NULL);
  return outcomes[outcome];
}

LidOutcome
lid_outcome_from_text (const char *text, gboolean *found)
{
  for (guint i = 0; i < LID_N_OUTCOMES; i++)
    if (strcmp (outcomes[i], text) == 0)
      {
        *found = TRUE;
        return i;
      }
  *found = FALSE;
  return LID_OUTCOME_INCONCLUSIVE;
}

/**
 * lid_trial_new:
 * @population: copied
 *
 * Returns: (transfer full): a start with it, every processor in its own socket, nothing said yet
 */
LidTrial *
lid_trial_new (const LidPopulation *population)
{
  LidTrial *trial = g_new0 (LidTrial, 1);

  trial->population = lid_population_copy (population);
  trial->reseated = g_new0 (guint8, population->n_slots + 1);
  trial->at = g_new0 (guint8, population->n_slots + 1);
  trial->n_sockets = population->n_sockets;
  trial->processor_of = g_new0 (guint, population->n_sockets + 1);
  for (guint s = 0; s < population->n_sockets; s++)
    trial->processor_of[s] = s;
  trial->outcome = LID_OUTCOME_INCONCLUSIVE;
  return trial;
}

/**
 * lid_trial_next:
 *
 * Returns: (transfer full): another start of the machine as it was, nothing said yet; the setup is
 * as it was
 */
LidTrial *
lid_trial_next (const LidTrial *before)
{
  LidTrial *trial = lid_trial_new (before->population);

  memcpy (trial->processor_of, before->processor_of, before->n_sockets * sizeof (guint));
  trial->eased = before->eased;
  return trial;
}

void
lid_trial_free (LidTrial *trial)
{
  if (trial == NULL)
    return;
  lid_population_free (trial->population);
  g_free (trial->reseated);
  g_free (trial->at);
  g_free (trial->processor_of);
  g_free (trial);
}

/**
 * lid_trial_is_told_where:
 *
 * Returns: whether some slot was named with the fault
 */
gboolean
lid_trial_is_told_where (const LidTrial *trial)
{
  return memchr (trial->at, TRUE, trial->population->n_slots) != NULL;
}

/**
 * lid_trial_swap:
 *
 * What is in slots @a and @b, modules or nothing, changes places.
 */
void
lid_trial_swap (LidTrial *trial, guint a, guint b)
{
  LidFitting kept = trial->population->slots[a];

  trial->population->slots[a] = trial->population->slots[b];
  trial->population->slots[b] = kept;
}
