/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "facts/module.h"

/* What became of one slot of the plan: product.md 9, "Prove". */
typedef enum
{
  LID_VERDICT_AS_PLANNED,                /* the module planned, or nothing where nothing is */
  LID_VERDICT_AS_PLANNED_AS_FAR_AS_TOLD, /* nothing told speaks against it */
  LID_VERDICT_MISSING,                   /* planned and not seen */
  LID_VERDICT_SMALLER,
  LID_VERDICT_SLOWER,
  LID_VERDICT_ANOTHER,
  LID_VERDICT_OTHER_NAME,  /* as planned, in a slot the machine calls by a name of its own */
  LID_VERDICT_NOT_PLANNED, /* seen where nothing is planned */
  LID_N_VERDICTS
} LidVerdict;

const char *lid_verdict_to_text (LidVerdict verdict);
const char *lid_verdict_to_words (LidVerdict verdict);
gboolean lid_verdict_is_difference (LidVerdict verdict);
LidVerdict lid_verdict_of (const LidModule *planned, const LidModule *seen, LidFact *fact);
