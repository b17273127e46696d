/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/finding.h"

typedef struct _LidCheck LidCheck;

/* When a rule speaks: product.md 6, first paragraph. */
typedef enum
{
  LID_PHASE_GOES_IN, /* sees every module of the population: whether it goes into its slot at all */
  LID_PHASE_FITTED,  /* sees every one that goes in and may stop some */
  LID_PHASE_USABLE,  /* sees what the fitted phase left */
  LID_PHASE_FIGURES  /* sees the figures too */
} LidPhase;

/* Ways in which moves that clear a finding are looked for: checks/cure.h. */
typedef enum
{
  LID_CURE_SETTLE = 1 << 0,   /* those it names to free slots elsewhere */
  LID_CURE_SPREAD = 1 << 1,   /* the same modules dealt out again */
  LID_CURE_FIT = 1 << 2,      /* more from the tray */
  LID_CURE_EXCHANGE = 1 << 3, /* those it names for others from the tray */
  LID_CURE_SORT = 1 << 4, /* dealt out again, each class on channels or at processors of its own */
} LidCure;

/* What a rule is. A new one is one file rule-x.c, one declaration and one line in rules.[ch].
 * @scope: within what its verdict is decided; a finding may still list several such places.
 * @lasting: no module added ever clears a stops finding of it; the planner prunes by both.
 * @facts: the facts it asks for, bits 1 << LidFact.
 * @grades: the grades it gives by itself, LID_GRADE_BIT(); a running machine's own evidence makes
 * unsure of what stops, and with @board_decides a board's definition names another grade.
 * @stops: what its stopping finding stops, where the board does not say otherwise.
 * @cures: bits of LidCure: how moves are looked for where its check gives none.
 * @refuses_mode: it says why the memory mode is refused; moves that leave it refused clear nothing.
 * @no_moves: why no move of modules at hand clears it; NULL: there are such moves.
 * @why, @clears: for a person who asks. The window, the command line and the catalogue of rules
 * show these and nothing else. */
struct _LidRule
{
  const char *id;
  const char *title; /* N_(), a few words that also fill "it decides: …" */
  LidScope scope;
  gboolean lasting;
  LidPhase phase;
  guint32 facts;
  guint32 grades;
  LidStops stops;
  gboolean board_decides;
  guint32 cures;
  gboolean refuses_mode;
  const char *no_moves; /* N_(), nullable: one sentence */
  const char *why;      /* N_(): one to three sentences */
  const char *clears;   /* N_(): what to do, or that nothing needs doing */
  const char *basis;    /* "physics", "standard", "listed", "inventory", "common practice" */
  const char *source;   /* a published title, "common practice, no source" or "from memory" */
  void (*check) (LidCheck *check);
};

#define LID_GRADE_BIT(grade) (1u << (grade))
#define LID_FACT_BIT(fact) (1u << (fact))
#define LID_COMMON_PRACTICE "common practice, no source"
#define LID_FROM_MEMORY "from memory"
