/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"
#include "prove/verdict.h"

/* What is seen after power-on, held against the planned population: product.md 9, "Prove". */

typedef struct
{
  int slot;   /* of the board; LID_NOWHERE: the machine reports a slot the board does not have */
  char *name; /* as the machine spells it; NULL: it does not name it, or nobody read it */
  gboolean listed;   /* the machine lists it */
  gboolean by_place; /* only the place in the name tells which slot it is */
  LidVerdict verdict;
  LidModule *planned; /* nullable */
  LidModule *seen;    /* nullable; by eye only that one is there */
  LidSlotState state; /* as reported, where seen */
  LidRate runs;       /* as reported; LID_RATE_UNKNOWN: not told */
  char *text;         /* one sentence */
} LidProofSlot;

typedef struct
{
  LidBoard *board;
  LidPopulation *planned;
  LidPopulation *seen;  /* NULL: by eye */
  char *firmware;       /* level as reported, nullable */
  gboolean differs;     /* something is other than planned */
  gboolean matches;     /* nothing is, and enough was told to say so */
  char *untold;         /* one sentence: why what was told is not enough; NULL: it is */
  gint64 planned_mib;   /* that can be used, under the planned mode; -1: not known */
  gint64 fitted_mib;    /* planned, modes left aside; persistent left out */
  gint64 seen_mib;      /* -1: not told */
  LidRate expected;     /* the rate the plan runs at, LID_RATE_UNKNOWN: not known */
  LidRate *expected_of; /* per socket of the board, likewise */
  LidRate runs;         /* the least reported; LID_RATE_UNKNOWN: not told */
  GPtrArray *slots;     /* LidProofSlot, in the board's order, then those the board does not have */
  int *seen_in;         /* per slot of the board: where what is planned for it is seen instead */
  gboolean is_other;    /* it looks like another machine's inventory */
  gboolean is_cut;      /* the machine has more slots than are listed */
  gboolean hands_told;  /* the cautions stand in the advice */
  GPtrArray *remarks;   /* LidRemark, the inventory's; NULL: by eye */
  GPtrArray *notes;     /* char *: sentences to read before the verdicts */
  GPtrArray *advice;    /* char *: sentences, the cheapest to try first */
} LidProof;

/* What a person reads on the setup screen; at least one of the first two is told. */
typedef struct
{
  gint64 total_mib;  /* -1: not told */
  LidRate runs;      /* LID_RATE_UNKNOWN: not told */
  const char *slots; /* (nullable): those shown as filled, as lid_slot_list_mark() reads them */
} LidSeenByEye;

LidProof *lid_proof_new (const LidJob *job, const LidPopulation *planned, LidInventory *inventory);
LidProof *lid_proof_new_by_eye (const LidJob *job,
                                const LidPopulation *planned,
                                const LidSeenByEye *eye,
                                GError **error);
void lid_proof_free (LidProof *proof);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidProof, lid_proof_free)
void lid_proof_keep (const LidProof *proof, LidJob *job);
