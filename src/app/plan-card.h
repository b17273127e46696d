/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/leaf-card.h"
#include "app/plan-runner.h"

/* One option of the planner: a small leaf, its figures, and why one would choose it. Emits "taken"
 * when its button is pressed. */
#define LID_TYPE_PLAN_CARD (lid_plan_card_get_type ())
G_DECLARE_FINAL_TYPE (LidPlanCard, lid_plan_card, LID, PLAN_CARD, LidLeafCard)

GtkWidget *lid_plan_card_new (const LidPlanShown *shown);
int lid_plan_card_get_option (LidPlanCard *self);
