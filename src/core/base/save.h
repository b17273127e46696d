/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

gboolean lid_save_bytes (const char *path, const void *data, gsize size, int mode, GError **error);
