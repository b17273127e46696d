/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/bench-view.h"
#include "app/module-tray.h"

#include <gtk/gtk.h>

/* A window with a board and a tray, and one job on it. */
typedef struct
{
  GtkWidget *window;
  LidJobModel *model;
  LidHands *hands;
  LidBenchView *bench;
  LidBoardArea *board;
  LidModuleTray *tray;
} Desk;

LidJob *desk_example (void);
void desk_lay (Desk *desk, LidJob *job);
void desk_clear (Desk *desk);
void desk_settle (void);
