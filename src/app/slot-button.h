/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/hands.h"

#include <gtk/gtk.h>

/* One slot of the board: what can be focused, clicked, dragged and read aloud. Its picture comes
 * from the drawing library by way of the board it lies on. */
#define LID_TYPE_SLOT_BUTTON (lid_slot_button_get_type ())
G_DECLARE_FINAL_TYPE (LidSlotButton, lid_slot_button, LID, SLOT_BUTTON, GtkWidget)

typedef struct _LidBoardArea LidBoardArea;

GtkWidget *lid_slot_button_new (LidBoardArea *area, guint slot);
guint lid_slot_button_get_slot (LidSlotButton *self);
void lid_slot_button_refresh (LidSlotButton *self, guint findings);
void lid_slot_button_close_menu (LidSlotButton *self);
gboolean lid_slot_button_drop (LidSlotButton *self, const GValue *value);
