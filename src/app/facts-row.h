/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* A word, its field, and below the field the sentence that says what is wrong with what stands in
 * it. What was typed stays there until it is mended. */
typedef struct
{
  GtkWidget *label;
  GtkWidget *field;
  GtkWidget *box;
  GtkWidget *complaint;
} LidFactsRow;

void
lid_facts_row_add (LidFactsRow *row, GtkGrid *grid, int at, const char *words, GtkWidget *field);
void lid_facts_row_say (LidFactsRow *row, const char *sentence);
gboolean lid_facts_row_changed (const LidFactsRow *row, GtkWidget *editable);
gboolean lid_facts_row_complains (const LidFactsRow *row);
void lid_facts_row_set_visible (LidFactsRow *row, gboolean visible);
void lid_facts_row_set_text (LidFactsRow *row, GtkWidget *editable, const char *text);
