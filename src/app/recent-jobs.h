/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* The jobs worked on last, out of the desktop's own list of recent files. */
typedef struct
{
  char *uri;
  char *title;  /* the machine, as the job calls it */
  char *folder; /* where the file lies, as people write it */
} LidRecentJob;

GPtrArray *lid_recent_jobs_list (guint most);
void lid_recent_jobs_add (GFile *file, const char *title);
void lid_recent_jobs_drop (GFile *file);
GMenuModel *lid_recent_jobs_menu (void);
