/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/slot-button.h"

#include "app/board-area.h"
#include "app/help-popover.h"
#include "app/help.h"
#include "app/popover-place.h"
#include "app/slot-menu.h"
#include "app/slot-said.h"
#include "app/slot-words.h"
#include "app/tooltip.h"
#include "app/tray-item.h"

#include <glib/gi18n.h>

struct _LidSlotButton
{
  GtkWidget parent_instance;

  /* borrowed: the parent */
  LidBoardArea *area;
  guint slot;
  /* owned child, made when first asked for */
  GtkWidget *menu;
  LidSlotSaid said;
  /* recomputed */
  gboolean hover;
  gboolean target; /* a drag is over it */
};

G_DEFINE_FINAL_TYPE (LidSlotButton, lid_slot_button, GTK_TYPE_WIDGET)

guint
lid_slot_button_get_slot (LidSlotButton *self)
{
  return self->slot;
}

static LidHands *
hands_of (LidSlotButton *self)
{
  return lid_board_area_get_hands (self->area);
}

static void
repaint (LidSlotButton *self)
{
  lid_board_area_repaint_slot (self->area, (int)self->slot);
}

/* The keyboard came or went, or the window did. */
static void
lid_slot_button_state_flags_changed (GtkWidget *widget, GtkStateFlags old)
{
  LidSlotButton *self = LID_SLOT_BUTTON (widget);

  if (self->area != NULL)
    repaint (self);
  GTK_WIDGET_CLASS (lid_slot_button_parent_class)->state_flags_changed (widget, old);
}

static void
lid_slot_button_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  LidSlotButton *self = LID_SLOT_BUTTON (widget);
  GtkStateFlags state = gtk_widget_get_state_flags (widget);
  LidSlotFlags flags = 0;

  if (self->hover || self->target || lid_board_area_is_pointed_at (self->area, self->slot))
    flags |= LID_SLOT_HOVER;
  if (state & GTK_STATE_FLAG_FOCUS_VISIBLE)
    flags |= LID_SLOT_FOCUS;
  if (self->target || lid_board_area_is_next (self->area, self->slot))
    flags |= LID_SLOT_SELECTED;
  lid_board_area_snapshot_slot (self->area, snapshot, self->slot, flags);
}

/**
 * lid_slot_button_close_menu:
 *
 * The board moves under an open menu: it would stay behind, or leave the screen. Or what it
 * proposes is no longer true.
 */
void
lid_slot_button_close_menu (LidSlotButton *self)
{
  if (self->menu != NULL && gtk_widget_get_visible (self->menu))
    gtk_popover_popdown (GTK_POPOVER (self->menu));
}

/**
 * lid_slot_button_refresh:
 * @findings: of lid_slot_words_hash_findings()
 *
 * Says again what sits here and what the checker says of it, where that is something else.
 */
void
lid_slot_button_refresh (LidSlotButton *self, guint findings)
{
  lid_slot_button_close_menu (self);
  lid_slot_said_refresh (&self->said, GTK_WIDGET (self), self->area, self->slot, findings);
}

/* Made when the pointer rests here: GTK asks the screen where the pointer is each time a tooltip is
 * set, once a slot, and waits for the answer. */
static gboolean
lid_slot_button_query_tooltip (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tip)
{
  g_autofree char *words = NULL;

  if (!lid_tooltip_may_show (widget))
    return FALSE;
  words = lid_slot_said_words (LID_SLOT_BUTTON (widget)->area, LID_SLOT_BUTTON (widget)->slot);
  gtk_tooltip_set_text (tip, words);
  return TRUE;
}

static void
fill (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidSlotButton *self = LID_SLOT_BUTTON (widget);

  lid_hands_fill (hands_of (self), self->slot);
}

static void
empty (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidSlotButton *self = LID_SLOT_BUTTON (widget);

  lid_hands_empty (hands_of (self), self->slot);
}

static void
fill_channel (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidSlotButton *self = LID_SLOT_BUTTON (widget);

  lid_hands_fill_channel (hands_of (self), self->slot);
}

static void
fill_alike (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidSlotButton *self = LID_SLOT_BUTTON (widget);

  lid_hands_fill_alike (hands_of (self), self->slot);
}

/* A number pad has no arrow that says "next": this is the hand that stays where it is. */
static void
fill_next (GtkWidget *widget, const char *action, GVariant *parameter)
{
  lid_hands_fill_next (hands_of (LID_SLOT_BUTTON (widget)));
}

static void
apply_remedy (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidSlotButton *self = LID_SLOT_BUTTON (widget);
  guint which = parameter != NULL ? g_variant_get_uint32 (parameter) : 0;
  const LidRemedy *remedy = lid_slot_menu_remedy (
      lid_job_model_get_assessment (lid_hands_get_model (hands_of (self))), self->slot, which);

  if (remedy != NULL)
    lid_hands_apply (hands_of (self), remedy);
}

static void
why (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidSlotButton *self = LID_SLOT_BUTTON (widget);
  const LidAssessment *assessment
      = lid_job_model_get_assessment (lid_hands_get_model (hands_of (self)));
  g_autoptr (GPtrArray) all = lid_help_of_slot (assessment->findings, self->slot);

  lid_help_popover_show (widget, all);
}

static void
first_remedy (GtkWidget *widget, const char *action, GVariant *parameter)
{
  apply_remedy (widget, action, NULL);
}

static void
show_menu (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidSlotButton *self = LID_SLOT_BUTTON (widget);
  g_autoptr (GMenuModel) model = lid_slot_menu_new (
      lid_job_model_get_assessment (lid_hands_get_model (hands_of (self))), self->slot);

  if (self->menu == NULL)
    {
      self->menu = gtk_popover_menu_new_from_model (model);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->menu), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      _ ("What can be done with this slot"), -1);
      gtk_widget_set_parent (self->menu, widget);
    }
  else
    gtk_popover_menu_set_menu_model (GTK_POPOVER_MENU (self->menu), model);
  lid_popover_place_show (GTK_POPOVER (self->menu));
}

static void
clicked (GtkGestureClick *gesture, int n, double x, double y, GtkWidget *widget)
{
  LidSlotButton *self = LID_SLOT_BUTTON (widget);

  if (!gtk_widget_contains (widget, x, y))
    return; /* let go over another slot */
  gtk_widget_grab_focus (widget);
  if (gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture)) == GDK_BUTTON_SECONDARY)
    gtk_widget_activate_action (widget, "slot.menu", NULL);
  else if (!lid_board_area_come_closer (self->area, self->slot)
           && lid_hands_get_module (hands_of (self)) != NULL)
    gtk_widget_activate_action (widget, "slot.fill", NULL);
}

static void
entered (GtkEventControllerMotion *motion, double x, double y, LidSlotButton *self)
{
  self->hover = TRUE;
  repaint (self);
}

static void
left (GtkEventControllerMotion *motion, LidSlotButton *self)
{
  self->hover = FALSE;
  repaint (self);
}

static GdkContentProvider *
prepare_drag (GtkDragSource *source, double x, double y, LidSlotButton *self)
{
  const LidPopulation *population = lid_board_area_get_population (self->area);

  if (population->slots[self->slot].module == NULL)
    return NULL; /* nothing to take */
  return gdk_content_provider_new_typed (LID_TYPE_SLOT_BUTTON, self);
}

static void
begin_drag (GtkDragSource *source, GdkDrag *drag, GtkWidget *widget)
{
  g_autoptr (GdkPaintable) picture = gtk_widget_paintable_new (widget);

  gtk_drag_source_set_icon (source, picture, 0, 0);
}

/**
 * lid_slot_button_drop:
 * @value: what was dropped: another slot, or an item of the tray
 *
 * Returns: whether something was fitted here
 */
gboolean
lid_slot_button_drop (LidSlotButton *self, const GValue *value)
{
  GObject *from = g_value_get_object (value);

  if (LID_IS_TRAY_ITEM (from))
    return lid_hands_fill_with (hands_of (self), self->slot,
                                lid_tray_item_get_module (LID_TRAY_ITEM (from)));
  if (LID_IS_SLOT_BUTTON (from) && from != G_OBJECT (self))
    return lid_hands_move (hands_of (self), LID_SLOT_BUTTON (from)->slot, self->slot);
  return FALSE;
}

static gboolean
dropped (GtkDropTarget *target, const GValue *value, double x, double y, LidSlotButton *self)
{
  self->target = FALSE;
  return lid_slot_button_drop (self, value);
}

static GdkDragAction
drag_came (GtkDropTarget *target, double x, double y, LidSlotButton *self)
{
  self->target = TRUE;
  repaint (self);
  return GDK_ACTION_COPY;
}

static void
drag_went (GtkDropTarget *target, LidSlotButton *self)
{
  self->target = FALSE;
  repaint (self);
}

static void
lid_slot_button_dispose (GObject *object)
{
  LidSlotButton *self = LID_SLOT_BUTTON (object);

  g_clear_pointer (&self->menu, gtk_widget_unparent);
  g_clear_pointer (&self->said.module, lid_module_unref);
  G_OBJECT_CLASS (lid_slot_button_parent_class)->dispose (object);
}

static void
bind_keys (GtkWidgetClass *klass)
{
  static const struct
  {
    guint key;
    GdkModifierType modifiers;
    const char *action;
  } keys[] = {
    { GDK_KEY_Return, 0, "slot.fill" },
    { GDK_KEY_KP_Enter, 0, "slot.fill" },
    { GDK_KEY_space, 0, "slot.fill" },
    { GDK_KEY_Delete, 0, "slot.empty" },
    { GDK_KEY_KP_Delete, 0, "slot.empty" },
    { GDK_KEY_BackSpace, 0, "slot.empty" },
    { GDK_KEY_Menu, 0, "slot.menu" },
    { GDK_KEY_F10, GDK_SHIFT_MASK, "slot.menu" },
    { GDK_KEY_n, 0, "slot.fill-next" },
    { GDK_KEY_c, 0, "slot.fill-channel" },
    { GDK_KEY_r, 0, "slot.apply-first-remedy" },
    { GDK_KEY_question, GDK_SHIFT_MASK, "slot.why" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding_action (klass, keys[i].key, keys[i].modifiers, keys[i].action,
                                         NULL);
}

static void
lid_slot_button_class_init (LidSlotButtonClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_slot_button_dispose;
  widget_class->snapshot = lid_slot_button_snapshot;
  widget_class->state_flags_changed = lid_slot_button_state_flags_changed;
  widget_class->query_tooltip = lid_slot_button_query_tooltip;
  gtk_widget_class_set_css_name (widget_class, "slot");
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_CHECKBOX);
  gtk_widget_class_install_action (widget_class, "slot.fill", NULL, fill);
  gtk_widget_class_install_action (widget_class, "slot.empty", NULL, empty);
  gtk_widget_class_install_action (widget_class, "slot.fill-next", NULL, fill_next);
  gtk_widget_class_install_action (widget_class, "slot.fill-channel", NULL, fill_channel);
  gtk_widget_class_install_action (widget_class, "slot.fill-alike", NULL, fill_alike);
  gtk_widget_class_install_action (widget_class, "slot.apply-first-remedy", NULL, first_remedy);
  gtk_widget_class_install_action (widget_class, "slot.apply-remedy", "u", apply_remedy);
  gtk_widget_class_install_action (widget_class, "slot.menu", NULL, show_menu);
  gtk_widget_class_install_action (widget_class, "slot.why", NULL, why);
  bind_keys (widget_class);
}

static void
lid_slot_button_init (LidSlotButton *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkGesture *click = gtk_gesture_click_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkDragSource *source = gtk_drag_source_new ();
  GType takes[] = { LID_TYPE_SLOT_BUTTON, LID_TYPE_TRAY_ITEM };
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);

  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_has_tooltip (widget, TRUE);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), 0);
  g_signal_connect (click, "released", G_CALLBACK (clicked), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));
  g_signal_connect (motion, "enter", G_CALLBACK (entered), self);
  g_signal_connect (motion, "leave", G_CALLBACK (left), self);
  gtk_widget_add_controller (widget, motion);
  g_signal_connect (source, "prepare", G_CALLBACK (prepare_drag), self);
  g_signal_connect (source, "drag-begin", G_CALLBACK (begin_drag), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (source));
  gtk_drop_target_set_gtypes (target, takes, G_N_ELEMENTS (takes));
  g_signal_connect (target, "drop", G_CALLBACK (dropped), self);
  g_signal_connect (target, "enter", G_CALLBACK (drag_came), self);
  g_signal_connect (target, "leave", G_CALLBACK (drag_went), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (target));
}

/**
 * lid_slot_button_new:
 * @area: the board it will lie on, which becomes its parent
 * @slot: which slot of the job's board
 */
GtkWidget *
lid_slot_button_new (LidBoardArea *area, guint slot)
{
  LidSlotButton *self = g_object_new (LID_TYPE_SLOT_BUTTON, NULL);
  g_autofree char *name = NULL;

  self->area = area;
  self->slot = slot;
  name = lid_slot_words_name (lid_job_model_get_job (lid_hands_get_model (hands_of (self)))->board,
                              slot);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return GTK_WIDGET (self);
}
