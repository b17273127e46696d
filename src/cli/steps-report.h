/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "changeover/changeover-lists.h"
#include "checks/assessment.h"

void lid_steps_report_json (GString *out,
                            const char *source,
                            const LidChangeover *changeover,
                            const LidAssessment *assessment);
void lid_steps_report_text (GString *out,
                            const char *source,
                            const LidChangeover *changeover,
                            const LidAssessment *assessment);
void lid_steps_report_files (const char *source,
                             const LidChangeoverList *list,
                             const GPtrArray *files,
                             gboolean json);
