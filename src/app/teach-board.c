/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/teach-board.h"

#include "app/screen-theme.h"
#include "drawing/draw-board.h"

#include <glib/gi18n.h>

struct _LidTeachBoard
{
  GtkWidget parent_instance;

  /* owned */
  LidBoard *board; /* nullable */
  LidPopulation *nothing;
  LidDrawText *text;
  GPtrArray *slots;  /* LidTeachSlot, children */
  GPtrArray *told;   /* (nullable) utf8 by slot: its channel */
  gboolean *current; /* by slot: on the channel that is being told */
  /* borrowed */
  const LidTheme *theme;
  /* recomputed by size */
  LidBoardGeometry *geometry;
};

struct _LidTeachSlot
{
  GtkWidget parent_instance;

  guint slot;
  gboolean hover;
};

G_DEFINE_FINAL_TYPE (LidTeachBoard, lid_teach_board, GTK_TYPE_WIDGET)
G_DEFINE_FINAL_TYPE (LidTeachSlot, lid_teach_slot, GTK_TYPE_WIDGET)

static guint picked_signal;

static LidBoardGeometry *
geometry_of (LidTeachBoard *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  LidBoardView view = { .width = MAX (gtk_widget_get_width (widget), 1),
                        .height = MAX (gtk_widget_get_height (widget), 1),
                        .text_scale = lid_screen_theme_text_scale (widget) };
  LidMeasure measure;

  if (self->geometry != NULL)
    return self->geometry;
  if (self->theme != lid_screen_theme_of (widget) || self->text == NULL)
    {
      self->theme = lid_screen_theme_of (widget);
      g_clear_pointer (&self->text, lid_draw_text_free);
      self->text = lid_draw_text_new (self->theme);
    }
  measure = lid_draw_text_measure (self->text);
  self->geometry = lid_board_geometry_new (self->board, self->nothing, NULL, NULL, &view, &measure);
  for (guint i = 0; i < self->slots->len; i++)
    lid_board_geometry_tell (self->geometry, i, self->told->pdata[i]);
  return self->geometry;
}

static void
reshape (LidTeachBoard *self)
{
  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
  for (guint i = 0; i < self->slots->len; i++)
    gtk_widget_queue_draw (self->slots->pdata[i]);
}

static LidTeachBoard *
board_of (LidTeachSlot *self)
{
  return LID_TEACH_BOARD (gtk_widget_get_parent (GTK_WIDGET (self)));
}

static void
lid_teach_slot_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  LidTeachSlot *self = LID_TEACH_SLOT (widget);
  LidTeachBoard *board = board_of (self);
  LidBoardGeometry *geometry = geometry_of (board);
  LidSlotFlags flags = 0;
  graphene_rect_t bounds;
  GtkAllocation at;
  cairo_t *cr;

  if (self->hover)
    flags |= LID_SLOT_HOVER;
  if (board->current[self->slot])
    flags |= LID_SLOT_SELECTED;
  if (gtk_widget_get_state_flags (widget) & GTK_STATE_FLAG_FOCUS_VISIBLE)
    flags |= LID_SLOT_FOCUS;
  gtk_widget_get_allocation (widget, &at);
  graphene_rect_init (&bounds, -6, -6, (float)at.width + 12, (float)at.height + 12);
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_translate (cr, -at.x, -at.y);
  lid_draw_board_slot (cr, board->text, board->theme, geometry, self->slot, flags);
  cairo_destroy (cr);
}

static void
pick (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidTeachSlot *self = LID_TEACH_SLOT (widget);

  g_signal_emit (board_of (self), picked_signal, 0, self->slot, NULL);
}

static void
take_off (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidTeachSlot *self = LID_TEACH_SLOT (widget);

  g_signal_emit (board_of (self), picked_signal, 0, self->slot, "");
}

static void
clicked (GtkGestureClick *gesture, int n, double x, double y, GtkWidget *widget)
{
  if (!gtk_widget_contains (widget, x, y))
    return; /* let go over another slot */
  gtk_widget_grab_focus (widget);
  gtk_widget_activate_action (widget, "teach-slot.pick", NULL);
}

static void
entered (GtkEventControllerMotion *motion, double x, double y, LidTeachSlot *self)
{
  self->hover = TRUE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
left (GtkEventControllerMotion *motion, LidTeachSlot *self)
{
  self->hover = FALSE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* A letter is the channel's name: one key a slot. */
static gboolean
key_pressed (
    GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state, LidTeachSlot *self)
{
  gunichar c = g_unichar_toupper (gdk_keyval_to_unicode (key));
  char letter[2] = { 0 };

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || c < 'A' || c > 'Z')
    return GDK_EVENT_PROPAGATE;
  letter[0] = (char)c;
  g_signal_emit (board_of (self), picked_signal, 0, self->slot, letter);
  return GDK_EVENT_STOP;
}

static void
lid_teach_slot_class_init (LidTeachSlotClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  static const guint picks[] = { GDK_KEY_Return, GDK_KEY_KP_Enter, GDK_KEY_space };

  widget_class->snapshot = lid_teach_slot_snapshot;
  gtk_widget_class_set_css_name (widget_class, "teachslot");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_CHECKBOX);
  gtk_widget_class_install_action (widget_class, "teach-slot.pick", NULL, pick);
  gtk_widget_class_install_action (widget_class, "teach-slot.take-off", NULL, take_off);
  for (guint i = 0; i < G_N_ELEMENTS (picks); i++)
    gtk_widget_class_add_binding_action (widget_class, picks[i], 0, "teach-slot.pick", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Delete, 0, "teach-slot.take-off",
                                       NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_BackSpace, 0, "teach-slot.take-off",
                                       NULL);
}

static void
lid_teach_slot_init (LidTeachSlot *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkGesture *click = gtk_gesture_click_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_set_focusable (widget, TRUE);
  g_signal_connect (click, "released", G_CALLBACK (clicked), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));
  g_signal_connect (motion, "enter", G_CALLBACK (entered), self);
  g_signal_connect (motion, "leave", G_CALLBACK (left), self);
  gtk_widget_add_controller (widget, motion);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed), self);
  gtk_widget_add_controller (widget, keys);
}

GtkWidget *
lid_teach_board_get_slot (LidTeachBoard *self, guint slot)
{
  return slot < self->slots->len ? self->slots->pdata[slot] : NULL;
}

static void
remove_slots (LidTeachBoard *self)
{
  for (guint i = 0; i < self->slots->len; i++)
    gtk_widget_unparent (self->slots->pdata[i]);
  g_ptr_array_set_size (self->slots, 0);
  g_ptr_array_set_size (self->told, 0);
  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  g_clear_pointer (&self->nothing, lid_population_free);
  g_clear_pointer (&self->board, lid_board_unref);
  g_clear_pointer (&self->current, g_free);
}

/**
 * lid_teach_board_set_job:
 * @job: (nullable): whose slots are shown; nothing is told of them yet
 */
void
lid_teach_board_set_job (LidTeachBoard *self, const LidJob *job)
{
  remove_slots (self);
  if (job == NULL)
    return;
  self->board = lid_board_ref (job->board);
  self->nothing = lid_population_new (self->board);
  self->current = g_new0 (gboolean, self->board->n_slots + 1);
  for (guint i = 0; i < self->board->n_slots; i++)
    {
      LidTeachSlot *slot = g_object_new (LID_TYPE_TEACH_SLOT, NULL);
      g_autofree char *name = g_strdup_printf (_ ("slot %s"), lid_board_name_slot (self->board, i));

      slot->slot = i;
      gtk_widget_set_visible (GTK_WIDGET (slot), self->board->slots[i].soldered == NULL);
      gtk_accessible_update_property (GTK_ACCESSIBLE (slot), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                      -1);
      gtk_widget_set_parent (GTK_WIDGET (slot), GTK_WIDGET (self));
      g_ptr_array_add (self->slots, slot);
      g_ptr_array_add (self->told, NULL);
    }
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

/**
 * lid_teach_board_show:
 * @groups: what is told so far
 * @socket: the processor of the channel that is being told
 * @channel: its name
 */
void
lid_teach_board_show (LidTeachBoard *self,
                      const LidTeachGroups *groups,
                      int socket,
                      const char *channel)
{
  for (guint i = 0; i < self->slots->len; i++)
    {
      int on = 0;
      const char *told = lid_teach_groups_find (groups, self->board->slots[i].id, &on);
      g_autofree char *words = told != NULL ? g_strdup_printf (_ ("channel %s"), told)
                                            : g_strdup (_ ("channel not told"));

      g_free (self->told->pdata[i]);
      self->told->pdata[i] = g_strdup (told);
      self->current[i] = told != NULL && on == socket && g_strcmp0 (told, channel) == 0;
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->slots->pdata[i]),
                                      GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
      gtk_accessible_update_state (
          GTK_ACCESSIBLE (self->slots->pdata[i]), GTK_ACCESSIBLE_STATE_CHECKED,
          told != NULL ? GTK_ACCESSIBLE_TRISTATE_TRUE : GTK_ACCESSIBLE_TRISTATE_FALSE, -1);
    }
  reshape (self);
}

static void
lid_teach_board_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  LidTeachBoard *self = LID_TEACH_BOARD (widget);
  LidBoardGeometry *geometry;
  graphene_rect_t bounds;
  cairo_t *cr;

  if (self->board == NULL)
    return;
  geometry = geometry_of (self); /* makes the ink too */
  graphene_rect_init (&bounds, 0, 0, (float)gtk_widget_get_width (widget),
                      (float)gtk_widget_get_height (widget));
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  lid_draw_board_ground (cr, self->text, self->theme, geometry);
  cairo_destroy (cr);
  for (guint i = 0; i < self->slots->len; i++)
    gtk_widget_snapshot_child (widget, self->slots->pdata[i], snapshot);
}

static void
lid_teach_board_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  LidTeachBoard *self = LID_TEACH_BOARD (widget);

  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  for (guint i = 0; i < self->slots->len; i++)
    {
      LidBox hit = geometry_of (self)->slots[i].hit;
      GtkAllocation at
          = { (int)hit.x, (int)hit.y, MAX ((int)hit.width, 1), MAX ((int)hit.height, 1) };
      int least, natural;

      if (!gtk_widget_should_layout (self->slots->pdata[i]))
        continue;
      gtk_widget_measure (self->slots->pdata[i], GTK_ORIENTATION_HORIZONTAL, -1, &least, &natural,
                          NULL, NULL);
      gtk_widget_size_allocate (self->slots->pdata[i], &at, -1);
    }
}

/* Arrows move over the slots, Tab leaves. */
static gboolean
lid_teach_board_focus (GtkWidget *widget, GtkDirectionType direction)
{
  static const LidWay ways[] = { [GTK_DIR_UP] = LID_WAY_UP,
                                 [GTK_DIR_DOWN] = LID_WAY_DOWN,
                                 [GTK_DIR_LEFT] = LID_WAY_LEFT,
                                 [GTK_DIR_RIGHT] = LID_WAY_RIGHT };
  LidTeachBoard *self = LID_TEACH_BOARD (widget);
  GtkWidget *child = gtk_widget_get_focus_child (widget);
  int next;

  if (self->slots->len == 0)
    return FALSE;
  if (child == NULL)
    return gtk_widget_grab_focus (self->slots->pdata[0]);
  if (direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD)
    return FALSE;
  next = lid_board_geometry_neighbour (geometry_of (self), LID_TEACH_SLOT (child)->slot,
                                       ways[direction]);
  if (next == LID_NOWHERE)
    gtk_widget_error_bell (widget);
  else
    gtk_widget_grab_focus (self->slots->pdata[next]);
  return TRUE; /* an arrow never leaves the board by accident */
}

static void
lid_teach_board_dispose (GObject *object)
{
  remove_slots (LID_TEACH_BOARD (object));
  G_OBJECT_CLASS (lid_teach_board_parent_class)->dispose (object);
}

static void
lid_teach_board_finalize (GObject *object)
{
  LidTeachBoard *self = LID_TEACH_BOARD (object);

  g_ptr_array_unref (self->slots);
  g_ptr_array_unref (self->told);
  g_clear_pointer (&self->text, lid_draw_text_free);
  G_OBJECT_CLASS (lid_teach_board_parent_class)->finalize (object);
}

static void
lid_teach_board_class_init (LidTeachBoardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_teach_board_dispose;
  G_OBJECT_CLASS (klass)->finalize = lid_teach_board_finalize;
  widget_class->snapshot = lid_teach_board_snapshot;
  widget_class->size_allocate = lid_teach_board_size_allocate;
  widget_class->focus = lid_teach_board_focus;
  gtk_widget_class_set_css_name (widget_class, "teachboard");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  picked_signal = g_signal_new ("picked", LID_TYPE_TEACH_BOARD, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 2, G_TYPE_UINT, G_TYPE_STRING);
}

static void
lid_teach_board_init (LidTeachBoard *self)
{
  self->slots = g_ptr_array_new ();
  self->told = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_set_direction (GTK_WIDGET (self), GTK_TEXT_DIR_LTR); /* hardware does not mirror */
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Slots to click together"), -1);
  lid_screen_theme_follow (GTK_WIDGET (self), G_CALLBACK (reshape));
}

GtkWidget *
lid_teach_board_new (void)
{
  return g_object_new (LID_TYPE_TEACH_BOARD, NULL);
}
