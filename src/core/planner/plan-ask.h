/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/edits.h"
#include "planner/planner.h"
#include "stock/stock.h"

/* What a job and a shelf have to plan with: the one step from a document to a
 * question, for every face. Job and stock are borrowed and must outlive it. */
typedef struct
{
  LidPlanQuestion question;
  GArray *goods;        /* LidGood */
  GPtrArray *rows;      /* LidStockRow per good, borrowed; NULL: of the job's tray,
                           to be bought */
  GPtrArray *tray;      /* LidModule, borrowed */
  GPtrArray *kinds;     /* LidStockKind; nullable */
  const char *currency; /* borrowed, nullable */
} LidPlanAsk;

LidPlanAsk *lid_plan_ask_new (const LidJob *job, const LidStock *stock);
void lid_plan_ask_free (LidPlanAsk *ask);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidPlanAsk, lid_plan_ask_free)

/* plan-take.c */
gboolean lid_plan_take (LidEdits *edits, const LidPlanOption *option, GError **error);
