/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/regions.h"

guint
lid_matched_narrowest (LidRegionRule rule, const LidRegionChannel *channels, guint n_channels);
