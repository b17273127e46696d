/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/board-area.h"

/* "and 9 more findings": the drawing shows it, this opens them. */
#define LID_TYPE_MORE_BUTTON (lid_more_button_get_type ())
G_DECLARE_FINAL_TYPE (LidMoreButton, lid_more_button, LID, MORE_BUTTON, GtkWidget)

GtkWidget *lid_more_button_new (LidBoardArea *area);
