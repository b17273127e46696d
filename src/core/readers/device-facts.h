/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "readers/listing.h"

gboolean lid_device_facts_is_storage (const LidToldDevice *told);
gboolean lid_device_facts_is_told (const LidToldDevice *told);
LidDevice *lid_device_facts_add (LidInventory *inventory, const LidToldDevice *told);
LidKind lid_device_facts_kind (const LidToldDevice *told);
int lid_device_facts_check_bits (const LidToldDevice *told);
gboolean lid_device_facts_ranks_are_plausible (guint ranks);
