/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "readers/reader.h"

gboolean lid_reader_smbios_read_pair (const LidBytes *entry_point,
                                      LidBytes table,
                                      LidInventory *inventory,
                                      GError **error);
