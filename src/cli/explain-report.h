/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

gboolean lid_explain_report (GString *out, const char *word, gboolean json);
void lid_explain_report_all (GString *out, gboolean json);
