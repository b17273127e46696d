/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/window.h"

#include "drawing/figures-line.h"
#include "drawing/sheet.h"
#include "job/job-open.h"

/* The parts of one window: window.c (what it shows), window-files.c (what comes in and is kept),
 * window-board.c (board and tray), window-sheets.c (what goes out), window-actions.c (the table of
 * what it does). */
struct _LidWindow
{
  GtkApplicationWindow parent_instance;

  GSettings *settings;      /* nullable */
  LidJobModel *model;       /* nullable: no job */
  GFile *file;              /* nullable: where the job was opened from or saved to */
  GFile *source;            /* nullable: the inventory the job was made of */
  LidBoard *offered;        /* nullable: a board that may be meant */
  LidBoard *shown;          /* nullable: the board the job was last seen on */
  GPtrArray *taught;        /* LidBoard: taught in this window, kept as the user's */
  GtkNativeDialog *chooser; /* nullable: shown */
  gboolean closing;         /* the user gave the unsaved changes up, or they are saved */
  char *figures_text;

  GtkWidget *bar;
  GtkLabel *bar_label;
  GtkWidget *bar_button;
  GtkWidget *board_place;
  GtkWidget *facts_button;
  GtkBox *figures;
  GtkMenuButton *menu_button;
  GtkWidget *links;
  GtkStack *pages;
  GtkWidget *populations;
  GtkLabel *subtitle;
  GtkLabel *title;
  GtkWidget *tray_place;
};

void lid_window_take_job (LidWindow *self, LidJob *job, LidParts *parts);
void lid_window_say (LidWindow *self, const char *sentence);
void lid_window_say_offer (LidWindow *self, const char *sentence, const char *button);
gboolean lid_window_edit (LidWindow *self, gboolean done, GError *const *error);

/* window-board.c */
void lid_window_show_board (LidWindow *self);
void lid_window_follow_board (LidWindow *self);

/* window-files.c */
LidParts *lid_window_load_parts (LidWindow *self);
void lid_window_choose_job (LidWindow *self);
void lid_window_paste (LidWindow *self);
void lid_window_save (LidWindow *self);
void lid_window_save_as (LidWindow *self);
void lid_window_use_offered (LidWindow *self);
gboolean lid_window_ask_to_close (LidWindow *self);
gboolean lid_window_dropped (GtkDropTarget *, const GValue *value, double, double, LidWindow *self);

/* window-sheets.c */
void lid_window_print_bench (LidWindow *self);
void lid_window_print_lid (LidWindow *self);
void lid_window_export_bench (LidWindow *self);
void lid_window_export_lid (LidWindow *self);
