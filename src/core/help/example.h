/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"
#include "checks/rule.h"

/* One example a rule: a small board, what is fitted, and the smallest change that clears what the
 * rule says. They lie in resources/rules, are compiled in, and each is a test
 * (tests/core/test-catalogue.c): the rule speaks, the change silences it, and no part of the change
 * can be left out. resources/rules/README says how a file is written. */
typedef enum
{
  LID_CHANGE_TAKE,
  LID_CHANGE_MOVE,
  LID_CHANGE_SWAP,
  LID_CHANGE_FIT,
  LID_CHANGE_EXCHANGE,
  LID_CHANGE_SEAT,
  LID_CHANGE_TELL,
  LID_CHANGE_PROCESSOR,
  LID_CHANGE_MODEL,
  LID_CHANGE_FIRMWARE,
  LID_CHANGE_MODE,
  LID_CHANGE_NUMA,
  LID_CHANGE_SPARE,
  LID_CHANGE_MIRRORED,
  LID_N_CHANGES
} LidChangeKind;

typedef struct
{
  LidChangeKind kind;
  guint slot, to;    /* slots, or in @slot a socket */
  LidModule *module; /* owned: what is fitted; with LID_CHANGE_TELL who is told of */
  LidModule *with;   /* owned: LID_CHANGE_TELL: the same with the fact told */
  LidFact fact;
  char *word; /* a firmware level */
  gint64 number;
} LidExampleChange;

typedef struct
{
  const LidRule *rule;
  char *definition;       /* nullable: what the board's definition says, as JSON */
  char *definition_words; /* nullable: the same for a person */
  LidBoard *board;
  LidPopulation *population;
  LidPopulation *as_found; /* nullable */
  GPtrArray *at_hand;      /* LidModule: on the tray */
  GPtrArray *changes;      /* LidExampleChange; empty: nothing clears it */
} LidExample;

LidExample *lid_example_new (const LidRule *rule);
void lid_example_free (LidExample *example);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidExample, lid_example_free)
LidPopulation *lid_example_change (const LidExample *example, int without);
char *lid_example_change_words (const LidExample *example, guint change);
char *lid_example_words (const LidExample *example);
LidAssessment *lid_example_assess (const LidExample *example, const LidPopulation *population);
const LidFinding *lid_example_finding (const LidExample *example, const LidAssessment *assessment);
