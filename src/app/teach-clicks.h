/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/teach-board.h"

/* Teaching by clicking slots together: the slots, and which channel the next click is for. Letters
 * are offered in order; once the first channel is closed, the others close by themselves at its
 * size. Emits "changed". */
#define LID_TYPE_TEACH_CLICKS (lid_teach_clicks_get_type ())
G_DECLARE_FINAL_TYPE (LidTeachClicks, lid_teach_clicks, LID, TEACH_CLICKS, GtkWidget)

GtkWidget *lid_teach_clicks_new (void);
void lid_teach_clicks_set_job (LidTeachClicks *self, const LidJob *job);
char *lid_teach_clicks_get_pattern (LidTeachClicks *self);
guint lid_teach_clicks_n_open (LidTeachClicks *self);
LidTeachBoard *lid_teach_clicks_get_board (LidTeachClicks *self);
