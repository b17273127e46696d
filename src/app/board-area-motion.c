/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-area-motion.c — from one view to the other each slot goes its way, so that the eye keeps
 * it. The widgets are at their new places at once: keys and clicks never wait for a picture. */
#include "app/board-area-private.h"

#include <math.h>

#define DURATION_US 200000.0

/* A slot as it is seen on its way. */
typedef struct
{
  double x, y; /* of its middle */
  double along, across, angle;
} Pose;

struct _LidBoardMotion
{
  guint n;
  Pose *from;
  gint64 start; /* 0: not drawn yet */
  double share; /* of the way, 0 to 1, eased */
  guint tick;
  GskRenderNode *ground; /* of the new view, which comes up as the slots arrive */
};

static Pose
pose_of (const LidPlacedSlot *slot)
{
  LidBox box = slot->box;

  return (Pose){ box.x + box.width / 2, box.y + box.height / 2,
                 slot->upright ? box.height : box.width, slot->upright ? box.width : box.height,
                 slot->upright ? -90 : 0 };
}

static double
between (double a, double b, double share)
{
  return a + (b - a) * share;
}

static Pose
pose_now (const LidBoardMotion *motion, guint i, Pose to)
{
  Pose from = motion->from[i];
  double share = motion->share;

  return (Pose){ between (from.x, to.x, share), between (from.y, to.y, share),
                 between (from.along, to.along, share), between (from.across, to.across, share),
                 between (from.angle, to.angle, share) };
}

/**
 * lid_board_area_end_motion:
 *
 * Whatever is on its way is there.
 */
void
lid_board_area_end_motion (LidBoardArea *self)
{
  LidBoardMotion *motion = g_steal_pointer (&self->motion);

  if (motion == NULL)
    return;
  gtk_widget_remove_tick_callback (GTK_WIDGET (self), motion->tick);
  g_clear_pointer (&motion->ground, gsk_render_node_unref);
  g_free (motion->from);
  g_free (motion);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static gboolean
advance (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  LidBoardArea *self = LID_BOARD_AREA (widget);
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  double left;

  if (self->motion->start == 0)
    self->motion->start = now;
  left = 1 - MIN ((double)(now - self->motion->start) / DURATION_US, 1);
  self->motion->share = 1 - left * left * left;
  gtk_widget_queue_draw (widget);
  if (left <= 0)
    lid_board_area_end_motion (self);
  return G_SOURCE_CONTINUE; /* ending removed it */
}

/**
 * lid_board_area_begin_motion:
 *
 * To be called while the old view still stands. Does nothing where the desktop wants no motion;
 * begun again on the way, it goes on from where the slots are seen.
 */
void
lid_board_area_begin_motion (LidBoardArea *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  const LidBoardGeometry *geometry;
  LidBoardMotion *motion;
  gboolean wanted = FALSE;

  g_object_get (gtk_widget_get_settings (widget), "gtk-enable-animations", &wanted, NULL);
  if (!wanted || self->geometry == NULL || !gtk_widget_get_mapped (widget))
    return;
  geometry = self->geometry;
  motion = g_new0 (LidBoardMotion, 1);
  motion->n = geometry->n_slots;
  motion->from = g_new (Pose, MAX (motion->n, 1));
  for (guint i = 0; i < motion->n; i++)
    {
      motion->from[i] = pose_of (&geometry->slots[i]);
      if (self->motion != NULL && i < self->motion->n)
        motion->from[i] = pose_now (self->motion, i, motion->from[i]);
    }
  lid_board_area_end_motion (self);
  self->motion = motion;
  motion->tick = gtk_widget_add_tick_callback (widget, advance, NULL, NULL);
}

static void
snapshot_slot (LidBoardArea *self, GtkSnapshot *snapshot, guint i)
{
  const LidPlacedSlot *placed = &lid_board_area_get_geometry (self)->slots[i];
  Pose to = pose_of (placed), now = pose_now (self->motion, i, to);
  float along = (float)(now.along / to.along), across = (float)(now.across / to.across);

  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)now.x, (float)now.y));
  gtk_snapshot_rotate (snapshot, (float)(now.angle - to.angle));
  gtk_snapshot_scale (snapshot, placed->upright ? across : along, placed->upright ? along : across);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)-to.x, (float)-to.y));
  gtk_widget_snapshot_child (GTK_WIDGET (self), self->slots->pdata[i], snapshot);
  gtk_snapshot_restore (snapshot);
}

/**
 * lid_board_area_snapshot_motion:
 *
 * Returns: whether the board was drawn as it is on its way
 */
gboolean
lid_board_area_snapshot_motion (LidBoardArea *self, GtkSnapshot *snapshot)
{
  LidBoardMotion *motion = self->motion;

  if (motion == NULL || motion->n != self->slots->len)
    return FALSE;
  if (motion->ground == NULL)
    {
      GtkSnapshot *ground = gtk_snapshot_new ();

      lid_board_area_snapshot_ground (self, ground);
      motion->ground = gtk_snapshot_free_to_node (ground);
    }
  if (motion->ground != NULL)
    {
      gtk_snapshot_push_opacity (snapshot, motion->share);
      gtk_snapshot_append_node (snapshot, motion->ground);
      gtk_snapshot_pop (snapshot);
    }
  for (guint i = 0; i < self->slots->len; i++)
    snapshot_slot (self, snapshot, i);
  return TRUE;
}
