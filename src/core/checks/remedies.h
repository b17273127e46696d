/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment-private.h"

/* Remedies are worked out when the first of them is asked for: each is tried on a copy before it is
 * offered, which costs more than all the findings, and most findings are never asked. */
typedef struct _LidRemedies LidRemedies;

LidRemedies *
lid_remedies_new (const LidQuestion *question, const GPtrArray *at_hand, const GPtrArray *findings);
void lid_remedies_free (LidRemedies *remedies);
void lid_remedies_work_out (LidRemedies *remedies);
