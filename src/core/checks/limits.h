/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/check.h"

/* The common part of the capacity rules: is a module, channel, processor or machine within what is
 * listed, or within what somebody saw work, and with which firmware (product.md 6, settled
 * reading 7). What a definition assumes stands beside what is listed and never for it (product.md
 * 2: basis); where nothing is listed it is all there is to hold the sum against. */
typedef enum
{
  LID_WITHIN,
  LID_PROVEN,         /* beyond listed, seen to work with the fitted firmware or an older one */
  LID_PROVEN_UNKNOWN, /* seen to work, and the fitted level is not told */
  LID_PROVEN_NEWER,   /* seen to work with a newer level only */
  LID_SUPPOSED,       /* beyond listed, within what is assumed: nobody has seen it */
  LID_BEYOND,         /* beyond everything listed, seen or assumed */
  LID_N_VERDICTS
} LidVerdict;

/* What one rule met, verdict by verdict: one finding each. */
typedef struct
{
  LidLimitWhat what;
  const char *subject; /* N_(): "A module of %s" */
  struct
  {
    LidSlotSet slots;
    gint64 most_mib;
    const LidLimit *listed; /* nullable; where nothing is listed, what is assumed in its place */
    const LidLimit *other;  /* nullable: what was seen, or is assumed, to carry it */
  } met[LID_N_VERDICTS];
} LidLimitTally;

gboolean lid_limits_speak_of (const LidCheck *check, LidLimitWhat what);
void lid_limits_tally (LidCheck *check, LidLimitTally *tally, guint *slots, guint n_slots);
void lid_limits_report (LidCheck *check, const LidLimitTally *tally);
