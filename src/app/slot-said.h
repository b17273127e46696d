/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/board-area.h"

/* What was said last of a slot: making the words of every slot at every edit costs more than the
 * edit. */
typedef struct
{
  gboolean any;
  LidModule *module; /* owned, nullable */
  LidSlotState state;
  LidSlotChange change; /* its modules are not looked at */
  guint findings;
} LidSlotSaid;

char *lid_slot_said_words (LidBoardArea *area, guint slot);
void lid_slot_said_refresh (
    LidSlotSaid *said, GtkWidget *widget, LidBoardArea *area, guint slot, guint findings);
