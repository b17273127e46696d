/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "planner/planner.h"
#include "stock/stock.h"

#include <gtk/gtk.h>

/* What is wished of a plan, as a line of a few controls. Emits "changed". */
#define LID_TYPE_WISH_LINE (lid_wish_line_get_type ())
G_DECLARE_FINAL_TYPE (LidWishLine, lid_wish_line, LID, WISH_LINE, GtkWidget)

GtkWidget *lid_wish_line_new (void);
void lid_wish_line_set_what (LidWishLine *self, LidWishWhat what);
void lid_wish_line_set_amount (LidWishLine *self, const char *text);
void lid_wish_line_set_reach (LidWishLine *self, LidReach reach);
LidReach lid_wish_line_get_reach (LidWishLine *self);
void lid_wish_line_set_proposal (LidWishLine *self, const char *capacity);
void lid_wish_line_set_shelf (LidWishLine *self, const char *name);
gboolean lid_wish_line_get_wish (LidWishLine *self,
                                 const LidStock *stock,
                                 LidGeneration generation,
                                 LidWish *wish,
                                 char **complaint);
