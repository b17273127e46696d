/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "readers/reader.h"

#define LID_READERS_MAX_BYTES (64u * 1024u * 1024u)

const LidReader *const *lid_readers_all (gsize *n_readers);
LidInventory *lid_readers_read_bytes (LidBytes bytes, const char *source, GError **error);
LidInventory *lid_readers_read_path (const char *path, GError **error);
GBytes *lid_readers_load (const char *path, GError **error);
