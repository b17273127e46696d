/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "locators/machine.h"

/* Different numbers of one sort seen on a machine, in rising order. */
typedef struct
{
  guint n; /* 0 also where there are too many to mean anything */
  gint16 values[LID_MACHINE_MOST_PARTS];
} LidSocketParts;

void lid_sockets_find (LidMachine *machine);
gboolean lid_sockets_add_part (LidSocketParts *parts, int value);
int lid_sockets_part_index (const LidSocketParts *parts, int value);
void lid_sockets_by_count (LidMachine *machine,
                           const LidSocketParts *parts,
                           const gint16 *value_of_slot,
                           gboolean controllers);
