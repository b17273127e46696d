/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "population/population.h"

#define LID_JOB_MAX_TRIALS 1024u

/* One start of the machine while a fault is looked for: product.md 9, "Trace". */
typedef enum
{
  LID_OUTCOME_CLEAN, /* no fault for as long as it needs to show, three times its usual interval */
  LID_OUTCOME_FAULT, /* a module not seen, or errors */
  LID_OUTCOME_INCONCLUSIVE, /* stopped too early, or nobody looked */
  LID_N_OUTCOMES
} LidOutcome;

typedef struct
{
  LidPopulation *population; /* which module was where */
  guint8 *reseated;          /* per slot: 1: taken out and seated again in the same place for it */
  guint8 *at; /* per slot: 1: the fault was reported there; none: nobody could tell */
  guint n_sockets;
  guint *processor_of; /* per socket: the processor in it, by the socket it was in at first */
  gboolean eased;      /* rate a step lower, or defaults in the setup */
  LidOutcome outcome;
  gboolean ended; /* the search is over with it: what comes after is another */
} LidTrial;

LidTrial *lid_trial_new (const LidPopulation *population);
LidTrial *lid_trial_next (const LidTrial *before);
void lid_trial_free (LidTrial *trial);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidTrial, lid_trial_free)
gboolean lid_trial_is_told_where (const LidTrial *trial);
void lid_trial_swap (LidTrial *trial, guint a, guint b);
const char *lid_outcome_to_text (LidOutcome outcome);
LidOutcome lid_outcome_from_text (const char *text, gboolean *found);
