/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"

#include <gio/gio.h>

/* The menu of a slot: its actions by name, and what the checker proposes for it. */
GMenuModel *lid_slot_menu_new (const LidAssessment *assessment, guint slot);
const LidRemedy *lid_slot_menu_remedy (const LidAssessment *assessment, guint slot, guint which);
