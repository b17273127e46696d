/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/window-actions.h"

/* A key that a widget binds itself. */
typedef struct
{
  const char *words; /* N_() */
  const char *keys;  /* as GtkShortcutsShortcut writes them, blanks between */
  LidActionPart part;
} LidKeyRow;

const LidKeyRow *lid_window_shortcuts_keys (guint *n);
GtkWidget *lid_window_shortcuts_new (void);
