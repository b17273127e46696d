/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

void lid_rate_table_look_up (
    const LidSurvey *survey, guint channel, guint filled, guint32 voltages, LidChannelRate *out);
void lid_rate_table_look_up_more (const LidSurvey *survey,
                                  guint channel,
                                  guint more,
                                  guint more_ranks,
                                  guint32 kinds,
                                  LidChannelRate *out);
guint32 lid_rate_table_passed_over (const LidSurvey *survey, guint32 *instead, gboolean *told);
guint32 lid_rate_table_voltages (const LidSurvey *survey);
gboolean lid_rate_table_leaves_out (const LidSurvey *survey, guint32 volt, guint32 among);
