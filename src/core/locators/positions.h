/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "locators/machine.h"

gboolean lid_positions_find (LidMachine *machine);
