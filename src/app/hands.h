/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/job-model.h"

#include <glib-object.h>

/* What the hands do: a module of the tray is picked up, slots are filled with it, one after the
 * other in the order of fitting. Tray and board share one pair of hands. Every call answers whether
 * it was done; where not, "complained" carries the sentence that says why. */
#define LID_TYPE_HANDS (lid_hands_get_type ())
G_DECLARE_FINAL_TYPE (LidHands, lid_hands, LID, HANDS, GObject)

LidHands *lid_hands_new (LidJobModel *model);
LidJobModel *lid_hands_get_model (LidHands *self);

void lid_hands_pick_up (LidHands *self, LidModule *module);
LidModule *lid_hands_get_module (LidHands *self);
int lid_hands_get_next (LidHands *self);

gboolean lid_hands_fill (LidHands *self, guint slot);
gboolean lid_hands_fill_with (LidHands *self, guint slot, LidModule *module);
gboolean lid_hands_fill_next (LidHands *self);
gboolean lid_hands_empty (LidHands *self, guint slot);
gboolean lid_hands_move (LidHands *self, guint from, guint to);
gboolean lid_hands_fill_first_slots (LidHands *self);
gboolean lid_hands_fill_channel (LidHands *self, guint slot);
gboolean lid_hands_fill_alike (LidHands *self, guint slot);
gboolean lid_hands_apply (LidHands *self, const LidRemedy *remedy);
gboolean lid_hands_drop (LidHands *self, LidModule *module, guint most);
gboolean lid_hands_add (LidHands *self, const char *text);
gboolean lid_hands_name_slot (LidHands *self, const char *text);
