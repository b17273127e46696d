/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/edits.h"
#include "planner/plan-ask.h"
#include "stock/reserved.h"

/* What taking a plan puts by on the shelf, so that two jobs do not take the same modules, and what
 * is given back when the job is done. */
char *lid_plan_shelf_job (const LidJob *job);
GPtrArray *lid_plan_shelf_wanted (const LidPlanAsk *ask, const LidPlanOption *option);
gboolean lid_plan_shelf_reserve (LidEdits *edits,
                                 const char *stock_path,
                                 const LidStockOptions *options,
                                 GPtrArray *wanted,
                                 GError **error);
gboolean lid_plan_shelf_held (const LidJob *job, guint *n_modules, GError **error);
gboolean lid_plan_shelf_release (LidEdits *edits, guint *n_modules, GError **error);
