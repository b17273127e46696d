/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/job-model.h"

#include <gtk/gtk.h>

/* The machine around the modules, for the population that is shown: processors, firmware, memory
 * mode, settings of setup. Choices come from the board; what is not told is a choice. */
#define LID_TYPE_FACTS_SETTINGS (lid_facts_settings_get_type ())
G_DECLARE_FINAL_TYPE (LidFactsSettings, lid_facts_settings, LID, FACTS_SETTINGS, GtkWidget)

typedef enum
{
  LID_SETTING_FIRMWARE,
  LID_SETTING_MODE,
  LID_SETTING_MIRRORED,
  LID_SETTING_SPARE,
  LID_SETTING_NUMA,
  LID_SETTING_RATE,
  LID_SETTING_VOLTAGE,
  LID_N_SETTINGS
} LidSetting;

GtkWidget *lid_facts_settings_new (LidJobModel *model);
void lid_facts_settings_show (LidFactsSettings *self);
GtkWidget *lid_facts_settings_get_field (LidFactsSettings *self, LidSetting which);
GtkWidget *lid_facts_settings_get_processor (LidFactsSettings *self, guint socket);
const char *lid_facts_settings_get_complaint (LidFactsSettings *self, LidSetting which);
