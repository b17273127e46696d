/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/job-model.h"
#include "app/shelf.h"
#include "app/stage-card.h"

/* A plan in two visits, when part of the order is missing: what of it is not there as a list with
 * counts, below it tonight and later as small leaves. Emits "wanted" with a LidStageWish and a
 * stage, 0 for the whole. */
#define LID_TYPE_STAGES_VIEW (lid_stages_view_get_type ())
G_DECLARE_FINAL_TYPE (LidStagesView, lid_stages_view, LID, STAGES_VIEW, GtkWidget)

GtkWidget *lid_stages_view_new (LidJobModel *model);
void lid_stages_view_use_shelf (LidStagesView *self, LidShelf *shelf);
const LidJob *lid_stages_view_get_job (LidStagesView *self);
const char *lid_stages_view_get_sentence (LidStagesView *self);
guint lid_stages_view_get_n_parts (LidStagesView *self);
void lid_stages_view_set_missing (LidStagesView *self, guint part, guint missing);
guint lid_stages_view_get_missing (LidStagesView *self, guint part);
