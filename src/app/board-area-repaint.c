/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-area-repaint.c — what an edit paints again: what looks otherwise than before, and nothing
 * else. Whether it does is asked of the geometry, not of the edit: undo, remedies and another
 * population go the same way. */
#include "app/board-area-private.h"

#include <string.h>

void
lid_board_area_repaint_all (LidBoardArea *self)
{
  lid_board_ground_clear (self->ground);
  for (guint i = 0; i < self->slots->len; i++)
    gtk_widget_queue_draw (self->slots->pdata[i]);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* Another zoom, view or type: sizes have to be asked for again. */
void
lid_board_area_reshape (LidBoardArea *self)
{
  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  lid_board_area_repaint_all (self);
}

/**
 * lid_board_area_repaint_slot:
 * @slot: looks otherwise; LID_NOWHERE: none does
 *
 * To be used in the place of gtk_widget_queue_draw(), which does not tell the board that what it
 * keeps of the processor is not true any more.
 */
void
lid_board_area_repaint_slot (LidBoardArea *self, int slot)
{
  if (slot == LID_NOWHERE || (guint)slot >= self->slots->len)
    return;
  if (self->geometry != NULL && (guint)slot < self->geometry->n_slots)
    lid_board_ground_drop_leaf (self->ground, self->geometry->slots[slot].leaf);
  gtk_widget_queue_draw (self->slots->pdata[slot]);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* The slots lie as they lay. */
static gboolean
lies_the_same (const LidBoardGeometry *a, const LidBoardGeometry *b)
{
  return memcmp (a->slots, b->slots, a->n_slots * sizeof *a->slots) == 0;
}

/**
 * lid_board_area_repaint:
 * @before: (transfer full) (nullable): of what is on the screen
 * @next: the slot that came next for the hand before the edit
 *
 * After an edit, with everything else in place.
 */
void
lid_board_area_repaint (LidBoardArea *self, LidBoardGeometry *before, int next)
{
  g_autoptr (LidBoardGeometry) old = before;

  if (old == NULL || self->stale || old->board != self->board)
    {
      lid_board_area_repaint_all (self);
      gtk_widget_queue_allocate (GTK_WIDGET (self));
      return;
    }
  lid_board_area_remake_geometry (self, old);
  lid_board_ground_follow (self->ground, old, self->geometry);
  for (guint i = 0; i < self->slots->len; i++)
    if (!lid_board_pieces_same_slot (old, self->geometry, i))
      lid_board_area_repaint_slot (self, (int)i);
  if (self->next != next)
    {
      lid_board_area_repaint_slot (self, self->next);
      lid_board_area_repaint_slot (self, next);
    }
  /* Notes are given their places at once: nothing outside the board depends on them, and the
   * window need not be laid out for them. */
  if (lies_the_same (old, self->geometry) && gtk_widget_get_mapped (GTK_WIDGET (self)))
    lid_board_area_allocate_notes (self);
  else
    gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
