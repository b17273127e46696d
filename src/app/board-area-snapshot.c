/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-area-snapshot.c — the board as it is handed to GTK: what belongs to no processor, then each
 * processor with its slots, then the notes. */
#include "app/board-area-private.h"

#include <math.h>

void
lid_board_area_snapshot_slot (LidBoardArea *self,
                              GtkSnapshot *snapshot,
                              guint slot,
                              LidSlotFlags flags)
{
  const LidBoardGeometry *geometry = lid_board_area_get_geometry (self);
  GtkWidget *widget = lid_board_area_get_slot (self, slot);
  LidBox box = geometry->slots[slot].box;
  graphene_rect_t bounds;
  GtkAllocation at;
  double edge, x, y;
  cairo_t *cr;

  gtk_widget_get_allocation (widget, &at);
  /* The ring of the focus lies outside the slot. What is larger than it need be is painted with
   * every neighbour. */
  edge = (flags & LID_SLOT_FOCUS) != 0 ? 6 : 0;
  x = floor (box.x - edge);
  y = floor (box.y - edge);
  graphene_rect_init (&bounds, (float)(x - at.x), (float)(y - at.y),
                      (float)(ceil (box.x + box.width + edge) - x),
                      (float)(ceil (box.y + box.height + edge) - y));
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_translate (cr, -at.x, -at.y);
  lid_draw_board_slot (cr, self->text, self->theme, geometry, slot, flags);
  cairo_destroy (cr);
}

static void
snapshot_part (LidBoardArea *self, GtkSnapshot *snapshot, int part)
{
  lid_board_ground_snapshot (self->ground, snapshot, self->text, self->theme,
                             lid_board_area_get_geometry (self), part);
}

/* All but the slots. */
void
lid_board_area_snapshot_ground (LidBoardArea *self, GtkSnapshot *snapshot)
{
  snapshot_part (self, snapshot, LID_BOARD_GROUND_ALL);
}

static void
snapshot_slots (LidBoardArea *self, GtkSnapshot *snapshot, int leaf)
{
  const LidBoardGeometry *geometry = lid_board_area_get_geometry (self);

  for (guint i = 0; i < MIN (self->slots->len, geometry->n_slots); i++)
    if (geometry->slots[i].leaf == leaf)
      gtk_widget_snapshot_child (GTK_WIDGET (self), self->slots->pdata[i], snapshot);
}

static void
snapshot_leaf (LidBoardArea *self, GtkSnapshot *snapshot, guint leaf)
{
  const LidBoardGeometry *geometry = lid_board_area_get_geometry (self);
  GtkSnapshot *drawn;

  if (lid_board_ground_append_leaf (self->ground, snapshot, geometry, leaf))
    return;
  drawn = gtk_snapshot_new ();
  snapshot_part (self, drawn, (int)leaf);
  snapshot_slots (self, drawn, (int)leaf);
  lid_board_ground_keep_leaf (self->ground, drawn, leaf);
  lid_board_ground_append_leaf (self->ground, snapshot, geometry, leaf);
}

static void
lid_board_area_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  LidBoardArea *self = LID_BOARD_AREA (widget);

  if (self->hands == NULL || lid_board_area_snapshot_motion (self, snapshot))
    return;
  snapshot_part (self, snapshot, LID_BOARD_GROUND_UNDER);
  for (guint i = 0; i < lid_board_area_get_geometry (self)->leaves->len; i++)
    snapshot_leaf (self, snapshot, i);
  snapshot_slots (self, snapshot, LID_NOWHERE);
  snapshot_part (self, snapshot, LID_BOARD_GROUND_OVER);
  for (guint i = 0; i < self->notes->len; i++)
    gtk_widget_snapshot_child (widget, self->notes->pdata[i], snapshot);
  if (self->more != NULL)
    gtk_widget_snapshot_child (widget, self->more, snapshot);
}

void
lid_board_area_class_init_snapshot (GtkWidgetClass *klass)
{
  klass->snapshot = lid_board_area_snapshot;
}
