/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/board-area.h"
#include "app/label-asker.h"
#include "app/plan-view.h"
#include "app/teach-view.h"

/* What fills the window between the figures and the tray: the board, and the teaching of its
 * channels where they are not told. Emits "taught": lid_teach_view_take_job() on
 * lid_bench_view_get_teach_view() has the job that takes the place of this one; and "planned":
 * lid_bench_view_get_plan_view() says which option is to become the plan. */
#define LID_TYPE_BENCH_VIEW (lid_bench_view_get_type ())
G_DECLARE_FINAL_TYPE (LidBenchView, lid_bench_view, LID, BENCH_VIEW, GtkWidget)

GtkWidget *lid_bench_view_new (void);
void lid_bench_view_set_before_after (LidBenchView *self, gboolean before_after);
gboolean lid_bench_view_get_before_after (LidBenchView *self);
void lid_bench_view_set_hands (LidBenchView *self, LidHands *hands);
LidBoardArea *lid_bench_view_get_board (LidBenchView *self);
GtkWidget *lid_bench_view_get_switch (LidBenchView *self);
void lid_bench_view_show_page (LidBenchView *self, GtkWidget *page);
LidLabelAsker *lid_bench_view_get_asker (LidBenchView *self);
LidTeachView *lid_bench_view_get_teach_view (LidBenchView *self);
LidPlanView *lid_bench_view_get_plan_view (LidBenchView *self);
