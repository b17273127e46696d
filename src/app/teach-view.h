/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/job-model.h"
#include "app/teach-board.h"

#include <gtk/gtk.h>

/* Numbering patterns for a machine whose slot names do not tell its channels, each drawn as soon
 * as it is chosen; and, where none fits, slots to be clicked together. Emits "taught" with the job
 * on the board as taught (LidJob, to be taken with lid_teach_view_take_job()). */
#define LID_TYPE_TEACH_VIEW (lid_teach_view_get_type ())
G_DECLARE_FINAL_TYPE (LidTeachView, lid_teach_view, LID, TEACH_VIEW, GtkWidget)

GtkWidget *lid_teach_view_new (void);
gboolean lid_teach_view_set_model (LidTeachView *self, LidJobModel *model);
guint lid_teach_view_n_patterns (LidTeachView *self);
void lid_teach_view_choose (LidTeachView *self, guint row);
LidTeachBoard *lid_teach_view_get_slots (LidTeachView *self);
const LidJob *lid_teach_view_get_preview (LidTeachView *self);
LidJob *lid_teach_view_take_job (LidTeachView *self);
