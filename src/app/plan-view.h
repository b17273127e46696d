/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/job-model.h"
#include "app/plan-runner.h"
#include "app/wish-line.h"

/* What a machine could become: the wish as a line, below it the plans as small leaves, there as
 * soon as they are found. Emits "taken" when one is to become the job's plan:
 * lid_plan_view_get_taken() says which. */
#define LID_TYPE_PLAN_VIEW (lid_plan_view_get_type ())
G_DECLARE_FINAL_TYPE (LidPlanView, lid_plan_view, LID, PLAN_VIEW, GtkWidget)

GtkWidget *lid_plan_view_new (void);
void lid_plan_view_set_model (LidPlanView *self, LidJobModel *model);
void lid_plan_view_set_shelf (LidPlanView *self, LidShelf *shelf);
LidShelf *lid_plan_view_get_shelf (LidPlanView *self);
void lid_plan_view_say (LidPlanView *self, const char *sentence);
LidWishLine *lid_plan_view_get_wish (LidPlanView *self);
LidPlanRunner *lid_plan_view_get_runner (LidPlanView *self);
int lid_plan_view_get_taken (LidPlanView *self);
void lid_plan_view_take (LidPlanView *self, guint option);
