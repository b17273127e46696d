/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/window.h"

typedef enum
{
  LID_PART_JOB,
  LID_PART_EDIT,
  LID_PART_LOOK,
  LID_PART_BOARD,
  LID_PART_NOTES,
  LID_PART_TRAY,
  LID_PART_MOVE,
  LID_PART_SHEETS,
  LID_PART_HELP,
  LID_N_PARTS
} LidActionPart;

/* One thing the window does. The keys, the menu and the shortcuts window are made of this table. */
typedef struct
{
  const char *action; /* with its target: "win.of::planned" */
  const char *words;  /* N_(): in the menu and beside the key */
  const char *key;    /* nullable */
  LidActionPart part;
  gboolean in_menu;
  gboolean needs_job;
  void (*run) (LidWindow *self); /* NULL: done elsewhere, see window-actions.c */
} LidActionRow;

const LidActionRow *lid_window_actions_all (guint *n);
void lid_window_actions_set_keys (GtkApplication *application);
void lid_window_actions_install (LidWindow *self);
void lid_window_actions_enable (LidWindow *self, const char *name, gboolean enabled);
void lid_window_actions_refresh (LidWindow *self);
void lid_window_actions_name (GtkWidget *widget, const char *name);
GMenuModel *lid_window_actions_menu (const char *undo, const char *redo, GMenuModel *recent);
