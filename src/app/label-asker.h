/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/job-model.h"

#include <gtk/gtk.h>

/* The one place where facts are asked that no inventory told: a row for each part number, answered
 * by typing or scanning its label. Stays open until all is answered. */
#define LID_TYPE_LABEL_ASKER (lid_label_asker_get_type ())
G_DECLARE_FINAL_TYPE (LidLabelAsker, lid_label_asker, LID, LABEL_ASKER, GtkPopover)

GtkWidget *lid_label_asker_new (void);
void lid_label_asker_set_model (LidLabelAsker *self, LidJobModel *model);
char *lid_label_asker_get_words (LidLabelAsker *self);
void lid_label_asker_turn_to (LidLabelAsker *self, guint slot);
GtkWidget *lid_label_asker_get_entry (LidLabelAsker *self, guint ask);
