/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/window.h"

#include "job/recovery.h"

/* Windows with jobs in a folder of their own, and hands that answer their questions. */
extern GtkApplication *jobs_application;
extern char *jobs_folder;

int jobs_run (int *argc, char ***argv, void (*add) (void));
char *jobs_source_path (const char *name);
char *jobs_contents (const char *path);
char *jobs_text_of (const char *name, const char *from, const char *to);
GFile *jobs_file (const char *name, const char *from, const char *to);
LidWindow *jobs_new_window (void);
LidWindow *jobs_open_job (GFile *file);
void jobs_edit (LidWindow *window, const char *title);
gboolean jobs_enabled (LidWindow *window, const char *name);
void jobs_act (LidWindow *window, const char *name);
guint jobs_n_windows (void);
GtkDialog *jobs_question_of (LidWindow *window);
void jobs_answer (LidWindow *window, int response);
gboolean jobs_says (LidWindow *window, const char *words);
GPtrArray *jobs_left (void);
