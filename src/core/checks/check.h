/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"
#include "checks/rule.h"
#include "checks/slot-set.h"
#include "population/survey.h"

/* What a rule sees while it runs, and the helpers it speaks through.
 *
 * "Live" modules are those in slots of fitted processors; a module behind an absent processor is
 * on no wire. "DRAM" modules are the live ones in real slots that are not persistent: what mixing
 * rules look at. Summaries over them let a rule leave at once when there is nothing to see, which
 * keeps a check of a full machine in microseconds. */
struct _LidCheck
{
  const LidBoard *board;
  const LidPopulation *population;
  const LidPopulation *as_found; /* nullable */
  const LidSurvey *survey;
  const LidRule *rule; /* the one at work */
  guint rule_index;
  gboolean evidence;        /* the population is as found on a running machine */
  guint32 belied;           /* processors told as absent though memory of theirs is shown: bits */
  gboolean plain;           /* nobody asks for remedies */
  const GPtrArray *at_hand; /* nullable: LidModule on the tray */
  const guint64 *may_stop;  /* nullable: bits: index of the rules that may; see refused */
  gboolean refused;         /* another rule stops something: no more is looked at */
  gboolean stopped;         /* a finding stops the machine */
  GPtrArray *findings;
  guint8 *unusable;                  /* per slot */
  const LidFigures *figures;         /* the rate and its limits; the rest in the figures phase */
  const struct _LidBalance *balance; /* from the usable phase on */

  guint32 forms; /* bits 1 << LidForm that the board or its kinds tell; 0: not told */
  guint n_live;
  guint *live; /* slots, rising */
  guint n_dram;
  guint *dram;     /* slots, rising */
  guint32 *place;  /* per slot: its place in the order of fitting, each another; soldered memory is
                      there first, what the order does not name comes last */
  guint32 missing; /* facts some DRAM module does not tell */
  guint32 varying; /* facts in which known DRAM modules differ */
  gboolean all_same; /* all DRAM modules are one and the same by part number or object */

  LidSlotSet asked[LID_N_FACTS];    /* slots whose fact a rule missed */
  guint64 asked_by[LID_N_FACTS][2]; /* bits: index of the rules that missed it */
};

void lid_check_init (LidCheck *check, const LidQuestion *question, const LidSurvey *survey);
void lid_check_see (LidCheck *check, const LidPopulation *population, const LidSurvey *survey);
void lid_check_clear (LidCheck *check);

LidFinding *lid_check_add (
    LidCheck *check, LidGrade grade, LidStops stops, const LidSlotSet *slots, char *text);
void lid_check_sort_by_place (const LidCheck *check, guint *slots, guint n_slots);
void lid_check_miss (LidCheck *check, LidFact fact, guint slot);
void lid_check_miss_ranks (LidCheck *check, guint slot);
gboolean lid_check_is_alike (const LidModule *a, const LidModule *b);
gboolean lid_check_is_usable (const LidCheck *check, guint slot);
gboolean lid_check_is_dram (const LidCheck *check, guint slot);
gboolean lid_check_counts (const LidCheck *check, guint slot);
LidForm lid_check_form (const LidModule *module);
guint32 lid_check_kinds_by_key (const LidCheck *check);
gboolean lid_check_fits (const LidCheck *check, guint slot);
gboolean lid_check_behind_empty (const LidCheck *check, guint slot);

static inline const LidModule *
lid_check_module (const LidCheck *check, guint slot)
{
  return check->population->slots[slot].module;
}
