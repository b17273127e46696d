/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/leaf-card.h"
#include "job/job.h"

/* What is wanted of a stage, or of the plan in stages. */
typedef enum
{
  LID_STAGE_TAKE,   /* it becomes the whole plan */
  LID_STAGE_PRINT,  /* its own bench sheet, printed */
  LID_STAGE_EXPORT, /* the same, to a file */
  LID_STAGE_KEEP,   /* the plan in stages becomes the job's: of no stage */
} LidStageWish;

/* One stage of a plan: a small leaf, its figures, one sentence. Emits "wanted" with a LidStageWish
 * when one of its buttons is pressed. */
#define LID_TYPE_STAGE_CARD (lid_stage_card_get_type ())
G_DECLARE_FINAL_TYPE (LidStageCard, lid_stage_card, LID, STAGE_CARD, LidLeafCard)

GtkWidget *lid_stage_card_new (const LidJob *job, guint stage);
guint lid_stage_card_get_stage (LidStageCard *self);
