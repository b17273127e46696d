/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/cure.h"
#include "checks/rules.h"

/* Moves to try, and what the checker says after them. */
typedef struct
{
  GArray *moves;
  LidAssessment *after; /* NULL: not judged yet, or refused */
  gboolean refused;     /* something stops then that does not stop now */
} LidCureCandidate;

/* One population whose findings are being cured. */
typedef struct
{
  const LidQuestion *question;
  LidCheck *check;
  LidAssessment *planned;    /* what a running machine would be told if it were only planned */
  const GPtrArray *findings; /* of that, or the check's own */
  const LidFigures *figures; /* likewise */
  const guint8 *unusable;    /* likewise, by slot */
  guint64 may_stop[LID_RULE_WORDS]; /* bits: index of the rules that stop something already */
  gboolean all;                     /* @moved is every arrangement there is */
  GPtrArray *moved;  /* LidCureCandidate: ways to move what is in the machine; NULL: not made yet */
  GPtrArray *fitted; /* LidCureCandidate: what the tray can add; NULL: not made yet */
} LidCureWork;

/* cure-find.c */
void lid_cure_candidate_free (gpointer candidate);
void lid_cure_make_moved (LidCureWork *cure);
LidCureCandidate *
lid_cure_find_inside (LidCureWork *cure, const LidFinding *finding, GPtrArray *own);
LidCureCandidate *
lid_cure_find_on_tray (LidCureWork *cure, const LidFinding *finding, GPtrArray *own);

/* cure-clears.c */
void lid_cure_allow_stops (LidCureWork *cure);
gboolean lid_cure_clears (const LidCureWork *cure,
                          const LidFinding *finding,
                          LidCureCandidate *candidate,
                          gboolean better);
guint lid_cure_count_faults (const LidAssessment *assessment);
gboolean lid_cure_only_takes_out (const GArray *moves);

/* cure-choose.c */
gboolean lid_cure_is_better (const LidCureWork *cure, LidCureCandidate *a, LidCureCandidate *b);
void lid_cure_agree (const LidCureWork *cure, guint index);
void lid_cure_say_price (const LidCureWork *cure, const LidAssessment *after, LidRemedy *remedy);
void lid_cure_say_rest (const LidCureWork *cure, const LidAssessment *after, LidRemedy *remedy);

/* cure-setting.c */
void lid_cure_by_setting (const LidCureWork *cure);

/* cure-least.c */
GArray *lid_cure_least (const LidCureWork *cure, const LidFinding *finding, LidAssessment **after);
