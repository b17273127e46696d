/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-area-focus.c — keys that move over the board, and clicks beside its slots.
 * The slots are one tab stop and so are the notes: arrows move inside, Tab leaves. */
#include "app/board-area-private.h"

#include "app/note-button.h"

static gboolean
focus_slots (LidBoardArea *self)
{
  GtkWidget *slot = self->last != NULL ? self->last : lid_board_area_get_slot (self, 0);

  return slot != NULL && gtk_widget_grab_focus (slot);
}

/* The next note that is drawn, from @from in steps of @step; the one that opens the rest is last.
 */
static gboolean
focus_note (LidBoardArea *self, int from, int step)
{
  for (int i = from; i >= 0 && i <= (int)self->notes->len; i += step)
    {
      GtkWidget *note = i < (int)self->notes->len ? self->notes->pdata[i] : self->more;

      if (note != NULL && gtk_widget_get_child_visible (note))
        return gtk_widget_grab_focus (note);
    }
  return FALSE;
}

/**
 * lid_board_area_focus_notes:
 *
 * Returns: whether there is a note, and it has the keyboard now
 */
gboolean
lid_board_area_focus_notes (LidBoardArea *self)
{
  return focus_note (self, 0, 1);
}

static gboolean
move_from_slot (LidBoardArea *self, LidSlotButton *slot, GtkDirectionType direction)
{
  static const LidWay ways[] = { [GTK_DIR_UP] = LID_WAY_UP,
                                 [GTK_DIR_DOWN] = LID_WAY_DOWN,
                                 [GTK_DIR_LEFT] = LID_WAY_LEFT,
                                 [GTK_DIR_RIGHT] = LID_WAY_RIGHT };
  int next;

  if (direction == GTK_DIR_TAB_FORWARD)
    return focus_note (self, 0, 1);
  if (direction == GTK_DIR_TAB_BACKWARD)
    return FALSE;
  next = lid_board_geometry_neighbour (lid_board_area_get_geometry (self),
                                       lid_slot_button_get_slot (slot), ways[direction]);
  if (next != LID_NOWHERE)
    return gtk_widget_grab_focus (lid_board_area_get_slot (self, (guint)next));
  gtk_widget_error_bell (GTK_WIDGET (self));
  return TRUE; /* an arrow never leaves the board by accident */
}

static gboolean
move_from_note (LidBoardArea *self, GtkWidget *note, GtkDirectionType direction)
{
  guint at = self->notes->len;

  if (note != self->more)
    g_ptr_array_find (self->notes, note, &at);
  switch (direction)
    {
    case GTK_DIR_UP:
      focus_note (self, (int)at - 1, -1);
      return TRUE;
    case GTK_DIR_DOWN:
      focus_note (self, (int)at + 1, 1);
      return TRUE;
    case GTK_DIR_TAB_FORWARD:
      return FALSE;
    case GTK_DIR_LEFT:
    case GTK_DIR_RIGHT:
    case GTK_DIR_TAB_BACKWARD:
    default:
      return focus_slots (self);
    }
}

static gboolean
lid_board_area_focus (GtkWidget *widget, GtkDirectionType direction)
{
  LidBoardArea *self = LID_BOARD_AREA (widget);
  GtkWidget *child = gtk_widget_get_focus_child (widget);

  if (self->hands == NULL)
    return FALSE;
  if (LID_IS_SLOT_BUTTON (child))
    return move_from_slot (self, LID_SLOT_BUTTON (child), direction);
  if (child != NULL)
    return move_from_note (self, child, direction);
  return (direction == GTK_DIR_TAB_BACKWARD && focus_note (self, 0, 1)) || focus_slots (self);
}

static gboolean
lid_board_area_grab_focus (GtkWidget *widget)
{
  return focus_slots (LID_BOARD_AREA (widget));
}

/* Tab comes back to where it left. */
static void
lid_board_area_set_focus_child (GtkWidget *widget, GtkWidget *child)
{
  GtkWidgetClass *parent = g_type_class_peek_parent (GTK_WIDGET_GET_CLASS (widget));

  if (LID_IS_SLOT_BUTTON (child))
    LID_BOARD_AREA (widget)->last = child;
  parent->set_focus_child (widget, child);
}

/* A channel's words: closer, when the board is fitted smaller than hands need it. */
static void
clicked (GtkGestureClick *gesture, int n, double x, double y, LidBoardArea *self)
{
  LidHit hit;

  if (self->hands == NULL)
    return;
  hit = lid_board_geometry_hit (lid_board_area_get_geometry (self), x, y);
  if (hit.kind != LID_HIT_CHANNEL)
    return;
  for (guint i = 0; i < self->geometry->n_slots; i++)
    if (self->geometry->board->slots[i].channel == (int)hit.index)
      {
        gtk_widget_grab_focus (lid_board_area_get_slot (self, i));
        lid_board_area_come_closer (self, i);
        return;
      }
}

/* Other keys for the zoom of window-actions.c: where plus needs a shift, and on the number pad. */
static void
add_keys (GtkWidget *widget)
{
  static const struct
  {
    guint key;
    GdkModifierType modifiers;
    const char *action;
  } keys[] = {
    { GDK_KEY_equal, GDK_CONTROL_MASK, "board.zoom-in" },
    { GDK_KEY_KP_Add, GDK_CONTROL_MASK, "board.zoom-in" },
    { GDK_KEY_KP_Subtract, GDK_CONTROL_MASK, "board.zoom-out" },
    { GDK_KEY_KP_0, GDK_CONTROL_MASK, "board.zoom-fit" },
  };
  GtkEventController *controller = gtk_shortcut_controller_new ();

  gtk_shortcut_controller_set_scope (GTK_SHORTCUT_CONTROLLER (controller),
                                     GTK_SHORTCUT_SCOPE_GLOBAL);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_shortcut_controller_add_shortcut (
        GTK_SHORTCUT_CONTROLLER (controller),
        gtk_shortcut_new (gtk_keyval_trigger_new (keys[i].key, keys[i].modifiers),
                          gtk_named_action_new (keys[i].action)));
  gtk_widget_add_controller (widget, controller);
}

void
lid_board_area_class_init_focus (GtkWidgetClass *klass)
{
  klass->focus = lid_board_area_focus;
  klass->grab_focus = lid_board_area_grab_focus;
  klass->set_focus_child = lid_board_area_set_focus_child;
}

void
lid_board_area_init_focus (LidBoardArea *self)
{
  GtkGesture *click = gtk_gesture_click_new ();

  g_signal_connect (click, "released", G_CALLBACK (clicked), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  add_keys (GTK_WIDGET (self));
}
