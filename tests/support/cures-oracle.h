/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"

/* One population and its tray, and what the checker says of it: as asked, and as if it were only
 * planned, which is the same where nothing was found running. */
typedef struct
{
  const LidQuestion *question;
  const GPtrArray *tray; /* nullable: LidModule */
  const LidAssessment *seen;
  const LidAssessment *planned;
  const GPtrArray *all; /* nullable: moves to every arrangement, where all are tried */
} CuresOracle;

/* Moves that were tried, and what the checker says after them. */
typedef struct
{
  GArray *moves;
  LidAssessment *after;
  guint alike; /* pairs of channels that hold the same then; 0 where not all is tried */
} CuresTry;

void cures_try_free (CuresTry *one);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CuresTry, cures_try_free)
CuresTry *cures_try_new (const CuresOracle *oracle, const GArray *moves);
CuresTry *cures_oracle_best (const CuresOracle *oracle, const LidFinding *finding);
gboolean cures_oracle_clears (const CuresOracle *oracle,
                              const LidFinding *finding,
                              const CuresTry *tried,
                              gboolean at_no_price);
int cures_oracle_compare (const CuresTry *a, const CuresTry *b);
int cures_oracle_compare_gain (const CuresTry *a, const CuresTry *b);
gboolean cures_oracle_had_nothing (const CuresOracle *oracle);
gboolean cures_same_moves (const GArray *a, const GArray *b);
gboolean cures_speaks_before (const LidAssessment *in, guint a, guint b);

/* cures-deals.c: the ways to move that checks/cure.h promises, each NULL where it is none. */
GArray *cures_deal_settled (const LidQuestion *question,
                            const LidFinding *finding,
                            int socket,
                            gboolean by_order);
GArray *cures_deal_spread (const LidQuestion *question, gboolean each_socket, gboolean by_order);
int cures_deal_least (const LidQuestion *q, GArray *dealt, int socket, const gboolean *barred);
gboolean cures_deal_modules (const LidQuestion *q, int socket, GArray *slots);
void
cures_deal_moves (const LidQuestion *q, const GArray *slots, const GArray *dealt, GArray *moves);
GPtrArray *cures_deal_nudged (const LidQuestion *question);
GArray *cures_deal_fitted (const LidQuestion *question, const GPtrArray *modules, guint n);
GArray *cures_deal_exchanged (const LidQuestion *question,
                              const LidFinding *finding,
                              const GPtrArray *modules);
guint cures_deal_place (const LidBoard *board, guint slot);
gboolean cures_deal_empties (const LidQuestion *question, const GArray *moves);
gboolean cures_deal_alike (const LidModule *a, const LidModule *b);

/* cures-sorts.c: each sort of module on channels, or at processors, of its own */
GArray *
cures_sorts_spread (const LidQuestion *question, gboolean each_socket, gboolean at_processors);

/* cures-arrange.c */
#define CURES_ALL_TRIED 8191u /* arrangements times slots: up to here all are tried */
GPtrArray *cures_arrangements (const LidQuestion *question, guint most);
GPtrArray *cures_all_tried (const LidQuestion *question);

/* cures-machines.c */
GPtrArray *cures_machine_tray (const LidPopulation *population);
LidPopulation *
cures_machine_shuffle (GRand *dice, const LidBoard *board, const LidPopulation *from);
void cures_machine_rewire (GRand *dice, LidBoard *board);
void cures_machine_solder (GRand *dice, LidBoard *board, const LidPopulation *from);
