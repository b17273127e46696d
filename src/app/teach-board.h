/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"
#include "locators/teach-groups.h"

#include <gtk/gtk.h>

/* The slots of a board to be clicked together into channels: they lie where the board shows them
 * and never move under the hand. Emits "picked" (guint slot, const char *channel): clicked, channel
 * NULL; or a letter typed on it, which is its channel; or taken off, channel "". */
#define LID_TYPE_TEACH_BOARD (lid_teach_board_get_type ())
G_DECLARE_FINAL_TYPE (LidTeachBoard, lid_teach_board, LID, TEACH_BOARD, GtkWidget)

#define LID_TYPE_TEACH_SLOT (lid_teach_slot_get_type ())
G_DECLARE_FINAL_TYPE (LidTeachSlot, lid_teach_slot, LID, TEACH_SLOT, GtkWidget)

GtkWidget *lid_teach_board_new (void);
void lid_teach_board_set_job (LidTeachBoard *self, const LidJob *job);
void lid_teach_board_show (LidTeachBoard *self,
                           const LidTeachGroups *groups,
                           int socket,
                           const char *channel);
GtkWidget *lid_teach_board_get_slot (LidTeachBoard *self, guint slot);
