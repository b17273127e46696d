/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/board-area.h"

/* Findings that have no note of their own, as a list that opens beside the note that counts them.
 */
void lid_findings_popover_open (GtkWidget *owner, LidBoardArea *area, const LidFinding *folded);
void lid_findings_popover_close (GtkWidget *owner);
