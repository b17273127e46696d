/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

gboolean lid_filler_is_filler (const char *text);
gboolean lid_filler_is_no_text (const char *text);
