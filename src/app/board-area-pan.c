/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-area-pan.c — a board larger than its room is moved like a sheet: by the paper between the
 * slots, or anywhere with the middle button or while space is held.
 * Space fills the slot that has the keyboard. With nothing in hand it could only complain, and that
 * can wait until it is let go: so it holds the sheet then, and never where it would fill. */
#include "app/board-area-private.h"

#include "app/slot-button.h"

#define LEAST_WAY 8.0 /* px: less is a click */

/* Where the sheet was taken hold of. */
typedef struct
{
  LidBoardArea *area;
  double x, y;           /* on the surface: the board itself moves under the pointer */
  double across, down;   /* how far it was scrolled then */
  gboolean moves, paper; /* far enough to be no click; where it may be held */
  gboolean space, used;  /* held down; and something was dragged meanwhile */
  GtkGesture *drag;      /* borrowed */
} Grip;

static GtkAdjustment *
adjustment_of (LidBoardArea *self, GtkOrientation orientation)
{
  GtkWidget *room = gtk_widget_get_parent (GTK_WIDGET (self));

  if (!GTK_IS_SCROLLABLE (room))
    return NULL;
  return orientation == GTK_ORIENTATION_HORIZONTAL
             ? gtk_scrollable_get_hadjustment (GTK_SCROLLABLE (room))
             : gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (room));
}

static gboolean
can_scroll (GtkAdjustment *adjustment)
{
  return adjustment != NULL
         && gtk_adjustment_get_upper (adjustment) > gtk_adjustment_get_page_size (adjustment) + 0.5;
}

static gboolean
pointer (GtkGestureDrag *gesture, double *x, double *y)
{
  GdkEvent *event = gtk_event_controller_get_current_event (GTK_EVENT_CONTROLLER (gesture));

  return event != NULL && gdk_event_get_position (event, x, y);
}

static void
begin (GtkGestureDrag *gesture, double x, double y, Grip *grip)
{
  GtkWidget *widget = GTK_WIDGET (grip->area);
  GtkAdjustment *across = adjustment_of (grip->area, GTK_ORIENTATION_HORIZONTAL);
  GtkAdjustment *down = adjustment_of (grip->area, GTK_ORIENTATION_VERTICAL);
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));

  grip->moves = FALSE;
  grip->paper = (can_scroll (across) || can_scroll (down))
                && (grip->space || button == GDK_BUTTON_MIDDLE
                    || (button <= GDK_BUTTON_PRIMARY
                        && gtk_widget_pick (widget, x, y, GTK_PICK_DEFAULT) == widget));
  if (!grip->paper)
    {
      gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_DENIED);
      return;
    }
  if (grip->space) /* before the slot under it takes it for its module */
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  grip->used = TRUE;
  if (!pointer (gesture, &grip->x, &grip->y))
    grip->x = grip->y = 0;
  grip->across = gtk_adjustment_get_value (across);
  grip->down = gtk_adjustment_get_value (down);
}

static void
update (GtkGestureDrag *gesture, double dx, double dy, Grip *grip)
{
  double x, y;

  if (!grip->paper)
    return;
  if (pointer (gesture, &x, &y))
    {
      dx = x - grip->x;
      dy = y - grip->y;
    }
  if (!grip->moves)
    {
      if (ABS (dx) < LEAST_WAY && ABS (dy) < LEAST_WAY)
        return;
      grip->moves = TRUE;
      gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
      gtk_widget_set_cursor_from_name (GTK_WIDGET (grip->area), "grabbing");
    }
  gtk_adjustment_set_value (adjustment_of (grip->area, GTK_ORIENTATION_HORIZONTAL),
                            grip->across - dx);
  gtk_adjustment_set_value (adjustment_of (grip->area, GTK_ORIENTATION_VERTICAL), grip->down - dy);
}

static void
end (GtkGestureDrag *gesture, double dx, double dy, Grip *grip)
{
  if (grip->moves)
    gtk_widget_set_cursor_from_name (GTK_WIDGET (grip->area), grip->space ? "grab" : NULL);
  grip->moves = grip->paper = FALSE;
}

static void
hold (Grip *grip, gboolean space)
{
  grip->space = space;
  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (grip->drag),
                                              space ? GTK_PHASE_CAPTURE : GTK_PHASE_BUBBLE);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (grip->area), space ? "grab" : NULL);
}

static gboolean
key_pressed (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state, Grip *grip)
{
  LidBoardArea *self = grip->area;
  GtkWidget *child = gtk_widget_get_focus_child (GTK_WIDGET (self));

  if (key != GDK_KEY_space || (state & gtk_accelerator_get_default_mod_mask ()) != 0)
    return FALSE;
  if (grip->space)
    return TRUE; /* it repeats */
  if (self->hands == NULL || lid_hands_get_module (self->hands) != NULL
      || !LID_IS_SLOT_BUTTON (child)
      || (!can_scroll (adjustment_of (self, GTK_ORIENTATION_HORIZONTAL))
          && !can_scroll (adjustment_of (self, GTK_ORIENTATION_VERTICAL))))
    return FALSE;
  grip->used = FALSE;
  hold (grip, TRUE);
  return TRUE;
}

static void
key_released (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state, Grip *grip)
{
  GtkWidget *child = gtk_widget_get_focus_child (GTK_WIDGET (grip->area));

  if (key != GDK_KEY_space || !grip->space)
    return;
  hold (grip, FALSE);
  if (!grip->used && LID_IS_SLOT_BUTTON (child))
    gtk_widget_activate_action (child, "slot.fill", NULL);
}

/* Let go where nobody tells us. */
static void
keys_left (Grip *grip)
{
  if (grip->space)
    hold (grip, FALSE);
}

static void
init_space (LidBoardArea *self, Grip *grip)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed), grip);
  g_signal_connect (keys, "key-released", G_CALLBACK (key_released), grip);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (keys_left), grip);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
}

void
lid_board_area_init_pan (LidBoardArea *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  Grip *grip = g_new0 (Grip, 1);

  grip->area = self; /* borrowed: the gestures go with it */
  grip->drag = drag;
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), 0);
  g_object_set_data_full (G_OBJECT (self), "lid-grip", grip, g_free);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (begin), grip);
  g_signal_connect (drag, "drag-update", G_CALLBACK (update), grip);
  g_signal_connect (drag, "drag-end", G_CALLBACK (end), grip);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  init_space (self, grip);
}
