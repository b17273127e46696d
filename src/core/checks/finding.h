/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "population/population.h"

typedef struct _LidRule LidRule;

/* One step of a remedy: take the module in slot @from (LID_NOWHERE: from the tray) and put it into
 * slot @to (LID_NOWHERE: onto the tray). */
typedef struct
{
  LidModule *module;
  int from;
  int to;
} LidMove;

typedef struct
{
  char *text;
  GArray *moves;       /* LidMove; empty when the remedy is not a move (a firmware update) */
  gboolean by_setting; /* a setting is the cause: nobody needs to look for moves */
  gboolean leaving;    /* its words are those of lid_remedy_take_out() */
} LidRemedy;

/* What the checker says: product.md 7. */
typedef struct
{
  const LidRule *rule;
  LidGrade grade;
  LidStops stops; /* only with LID_GRADE_STOPS */
  guint n_slots;
  guint *slots;       /* rising */
  char *text;         /* one sentence a customer understands, numbers in it */
  const char *basis;  /* static: "listed", "bench-proven", "assumed", "physics", "inventory", … */
  const char *source; /* borrowed from the rule or the board: published title, or "common practice,
                         no source" */
  LidRemedy *remedy;  /* nullable; not read before lid_finding_remedy() worked it out */
  struct _LidRemedies *remedies; /* nullable; borrowed from the assessment */
  int fact;            /* the LidFact it asks for, so that a report may fold several facts of one
                          part; LID_NOWHERE: it asks for none */
  guint64 asked_by[2]; /* with a fact: bits, index in lid_rules of the rules that ask for it */
  char *decides;       /* nullable; what that fact decides, in words */
} LidFinding;

const LidRemedy *lid_finding_remedy (const LidFinding *finding);
void lid_finding_free (LidFinding *finding);
const char *lid_finding_rule_id (const LidFinding *finding);
const char *lid_finding_rule_title (const LidFinding *finding);
const char *lid_grade_to_text (LidGrade grade);
const char *lid_grade_to_words (LidGrade grade);
const char *lid_stops_to_text (LidStops stops);
