/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/facts-settings.h"

#include <gtk/gtk.h>

/* The facts of a job, edited in place: whose machine it is, and what is set in it. */
#define LID_TYPE_FACTS_POPOVER (lid_facts_popover_get_type ())
G_DECLARE_FINAL_TYPE (LidFactsPopover, lid_facts_popover, LID, FACTS_POPOVER, GtkPopover)

GtkWidget *lid_facts_popover_new (void);
void lid_facts_popover_set_model (LidFactsPopover *self, LidJobModel *model);
GtkWidget *lid_facts_popover_get_field (LidFactsPopover *self, LidEditsText which);
LidFactsSettings *lid_facts_popover_get_settings (LidFactsPopover *self);
