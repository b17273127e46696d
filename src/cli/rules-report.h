/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/rule.h"

void lid_rules_report (GString *out, const char *source, const LidRule *rule, gboolean json);
void lid_rules_report_list (GString *out);
