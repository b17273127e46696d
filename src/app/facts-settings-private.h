/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/facts-row.h"
#include "app/facts-settings.h"

/* What facts-settings.c (what the job holds, and edits of it) and facts-settings-build.c (the rows,
 * from the board) share. */

/* A drop-down whose rows stand for numbers. */
typedef struct
{
  GtkStringList *words;
  GArray *values; /* gint64 */
} Choice;

struct _LidFactsSettings
{
  GtkWidget parent_instance;

  LidJobModel *model;
  GtkWidget *grid;
  GtkLabel *heading;
  LidFactsRow rows[LID_N_SETTINGS];
  LidFactsRow processors[LID_BOARD_MAX_SOCKETS];
  Choice choices[LID_N_SETTINGS];
  guint n_processors;
  gboolean showing; /* the job writes the fields, not the user */
};

/* facts-settings-build.c */
void lid_facts_settings_build (LidFactsSettings *self, const LidBoard *board);
GtkWidget *lid_facts_settings_build_entry (const LidFactsRow *row);
LidGeneration lid_facts_settings_build_generation (const LidBoard *board);
