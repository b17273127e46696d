/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/figures-bar.h"
#include "app/job-keeper.h"
#include "app/window.h"

#include "drawing/sheet.h"
#include "job/job-open.h"

#define LID_JOB_SUFFIX ".lidleaf"

/* The parts of one window: window.c (what it shows), window-open.c (what comes in), window-save.c
 * and window-recovery.c (what is kept), window-chooser.c (files chosen, questions asked),
 * window-board.c (board and tray), window-plan.c (plans), window-stages.c (a plan in two
 * visits), window-sheets.c (what goes out),
 * window-help.c (what is asked), window-actions.c (the table of what it does). */
struct _LidWindow
{
  GtkApplicationWindow parent_instance;

  GSettings *settings;      /* nullable */
  LidJobModel *model;       /* nullable: no job */
  GFile *file;              /* nullable: where the job was opened from or saved to */
  char *stamp;              /* nullable: what the file was like when last read or written */
  GFile *replaced;          /* nullable: the file that is asked about */
  LidJobKeeper *keeper;     /* nullable: keeps what is not saved */
  LidOpened opened;         /* what the job was made of; without the job */
  LidBoard *newer;          /* nullable: a newer definition of the job's board */
  GPtrArray *left;          /* nullable: LidRecovered, to be offered */
  GtkWidget *question;      /* nullable: shown */
  LidBoard *shown;          /* nullable: the board the job was last seen on */
  GPtrArray *taught;        /* LidBoard: taught in this window, kept as the user's */
  GtkNativeDialog *chooser; /* nullable: shown */
  gboolean closing;         /* once it is saved */
  int header_room;          /* px: what the header was fitted to */
  gboolean header_job;      /* that it showed a job then */
  GMenuModel *recent;       /* nullable: the recent jobs */

  GtkWidget *bar;
  GtkLabel *bar_label;
  GtkWidget *bar_button;
  GtkWidget *board_place;
  GtkWidget *empty_place;
  GtkWidget *facts_button;
  LidFiguresBar *figures;
  GtkWidget *left_bar;
  GtkLabel *left_label;
  GtkMenuButton *menu_button;
  GtkWidget *links;
  GtkStack *pages;
  GtkWidget *populations;
  GtkLabel *subtitle;
  GtkLabel *title;
  GtkWidget *tray_place;
  GtkWidget *undo_button;
  GtkWidget *redo_button;
};

/* An answer to a question of a window. */
typedef struct
{
  const char *words;
  void (*run) (LidWindow *self);
} LidAnswer;

void lid_window_take_job (LidWindow *self, LidJob *job, LidParts *parts, LidRecovery *recovery);
void lid_window_say (LidWindow *self, const char *sentence);
void lid_window_say_offer (LidWindow *self, const char *sentence, const char *button);
gboolean lid_window_edit (LidWindow *self, gboolean done, GError *const *error);

/* CSS classes of a window, one for each look of style.css. */
static const char *const lid_window_looks[] = { "light", "dark", "contrast", "contrast-dark" };

/* window-board.c */
void lid_window_show_board (LidWindow *self);
void lid_window_leave_page (LidWindow *self);
void lid_window_switch_view (LidWindow *self);
void lid_window_zoom_in (LidWindow *self);
void lid_window_zoom_out (LidWindow *self);
void lid_window_zoom_hand (LidWindow *self);
void lid_window_zoom_fit (LidWindow *self);
void lid_window_follow_board (LidWindow *self);
void lid_window_show_figures (LidWindow *self);
void lid_window_toggle_before_after (LidWindow *self);
void lid_window_teach (LidWindow *self);

/* window-open.c */
LidParts *lid_window_load_parts (LidWindow *self);
LidWindow *lid_window_for_job (LidWindow *self);
void lid_window_paste (LidWindow *self);
void lid_window_open_example (LidWindow *self);
void lid_window_open_recent (LidWindow *self, const char *uri);
void lid_window_use_offered (LidWindow *self);
gboolean lid_window_dropped (GtkDropTarget *, const GValue *value, double, double, LidWindow *self);

/* window-chooser.c */
void lid_window_dress (LidWindow *self, GtkWidget *other);
void lid_window_keep_folder (LidWindow *self, GFile *file);
void lid_window_add_filter (GtkFileChooser *chooser, const char *name, const char *pattern);
void lid_window_start_in_folder (LidWindow *self, GtkFileChooser *chooser);
void lid_window_choose_job (LidWindow *self);
void lid_window_save_as (LidWindow *self);
void lid_window_ask (
    LidWindow *self, const char *question, const char *detail, const LidAnswer *answers, guint n);

/* window-save.c */
void lid_window_set_file (LidWindow *self, GFile *file);
void lid_window_remember (LidWindow *self);
void lid_window_save (LidWindow *self);
void lid_window_saved (LidWindow *self, gboolean saved);
void lid_window_stay (LidWindow *self);
void lid_window_ask_to_replace (LidWindow *self, GFile *file);
gboolean lid_window_ask_to_close (LidWindow *self);

/* window-recovery.c */
void lid_window_take_up (LidWindow *self);
void lid_window_discard (LidWindow *self);

/* window-help.c */
void lid_window_help_install (LidWindow *self);
void lid_window_help_refresh (LidWindow *self, const char *undo, const char *redo);
void lid_window_help_show (LidWindow *self);
void lid_window_help_words (LidWindow *self);
void lid_window_help_shortcuts (LidWindow *self);
void lid_window_help_about (LidWindow *self);
void lid_window_help_next_part (LidWindow *self);
void lid_window_help_previous_part (LidWindow *self);

/* window-plan.c */
void lid_window_plan (LidWindow *self);
void lid_window_choose_shelf (LidWindow *self);
void lid_window_use_shelf (LidWindow *self, GFile *file);
void lid_window_take_plan (LidWindow *self);
void lid_window_ask_to_give_back (LidWindow *self);

/* window-stages.c */
void lid_window_stages (LidWindow *self);

/* window-header.c */
void lid_window_fit_header (LidWindow *self);
int lid_window_header_less (LidWindow *self, int least);
void lid_window_follow_room (LidWindow *self);

/* window-sheets.c */
void lid_window_print_bench (LidWindow *self);
void lid_window_print_lid (LidWindow *self);
void lid_window_print_stage (LidWindow *self, LidJob *job, guint stage);
void lid_window_export_stage (LidWindow *self, LidJob *job, guint stage);
void lid_window_preview (LidWindow *self);
void lid_window_about_board (LidWindow *self);
void lid_window_print_board (LidWindow *self);
void lid_window_export_board (LidWindow *self);
void lid_window_print_balance (LidWindow *self);
void lid_window_export_bench (LidWindow *self);
void lid_window_export_lid (LidWindow *self);
void lid_window_export_balance (LidWindow *self);
