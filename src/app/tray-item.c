/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/tray-item.h"

#include "app/popover-place.h"
#include "app/steady-label.h"
#include "base/units.h"

#include <glib/gi18n.h>
#include <string.h>

struct _LidTrayItem
{
  GtkWidget parent_instance;

  /* children */
  GtkWidget *amount;
  GtkWidget *rest;
  GtkWidget *origin;
  GtkWidget *menu;
  /* owned */
  LidHands *hands;
  LidModule *module;
  guint count;
  gboolean shown; /* it holds some */
};

G_DEFINE_FINAL_TYPE (LidTrayItem, lid_tray_item, GTK_TYPE_WIDGET)

static gboolean
is_in_hand (LidTrayItem *self)
{
  LidModule *held = lid_hands_get_module (self->hands);

  return held != NULL && self->module != NULL && lid_tray_alike (held, self->module);
}

/* Held or not is said by the frame, by the state, and never by colour alone. */
static void
show_held (LidTrayItem *self)
{
  gboolean held = is_in_hand (self);

  if (held)
    gtk_widget_add_css_class (GTK_WIDGET (self), "held");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "held");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_PRESSED,
                               held ? GTK_ACCESSIBLE_TRISTATE_TRUE : GTK_ACCESSIBLE_TRISTATE_FALSE,
                               -1);
}

/* What describes a module beside its capacity: its words less the first two, "32 GB". */
static const char *
after_capacity (const char *words, const char *capacity)
{
  if (!g_str_has_prefix (words, capacity))
    return words;
  words += strlen (capacity);
  while (*words == ' ' || *words == ',')
    words++;
  return words;
}

static void
set_shown (LidTrayItem *self, gboolean shown)
{
  GtkWidget *widget = GTK_WIDGET (self);

  if (self->shown == shown)
    return;
  self->shown = shown;
  /* What is not mapped cannot be focused; asking for that would lay the window out. */
  gtk_widget_set_child_visible (widget, shown);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_HIDDEN, !shown, -1);
}

/**
 * lid_tray_item_show:
 * @group: modules that are alike; only what is needed of them is kept
 */
void
lid_tray_item_show (LidTrayItem *self, const LidTrayGroup *group)
{
  gint64 mib = lid_module_capacity (group->module);
  g_autofree char *capacity = mib > 0 ? lid_units_capacity (mib) : g_strdup (_ ("size not told"));
  g_autofree char *amount = g_strdup_printf (_ ("%u × %s"), group->count, capacity);
  g_autofree char *words = lid_module_describe (group->module);
  const char *origin = lid_tray_origin_to_words (group->origin);
  g_autofree char *place = group->module->bin != NULL
                               ? g_strdup_printf (_ ("%s, bin %s"), origin, group->module->bin)
                               : g_strdup (origin);
  g_autofree char *name = g_strdup_printf ("%s, %s", amount, after_capacity (words, capacity));

  if (self->menu != NULL) /* it was opened for other modules, maybe elsewhere */
    gtk_popover_popdown (GTK_POPOVER (self->menu));
  lid_module_ref (group->module);
  g_clear_pointer (&self->module, lid_module_unref);
  self->module = group->module;
  self->count = group->count;
  lid_steady_label_set_text (LID_STEADY_LABEL (self->amount), amount);
  lid_steady_label_set_text (LID_STEADY_LABEL (self->rest), after_capacity (words, capacity));
  lid_steady_label_set_text (LID_STEADY_LABEL (self->origin), place);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, place, -1);
  set_shown (self, TRUE);
  show_held (self);
}

/**
 * lid_tray_item_show_nothing:
 *
 * It holds nothing until it is shown again: nobody sees it, hears it or comes to it.
 */
void
lid_tray_item_show_nothing (LidTrayItem *self)
{
  g_clear_pointer (&self->menu, gtk_widget_unparent);
  g_clear_pointer (&self->module, lid_module_unref);
  self->count = 0;
  set_shown (self, FALSE);
  show_held (self);
}

LidModule *
lid_tray_item_get_module (LidTrayItem *self)
{
  return self->module;
}

guint
lid_tray_item_get_count (LidTrayItem *self)
{
  return self->count;
}

static void
pick_up (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidTrayItem *self = LID_TRAY_ITEM (widget);

  lid_hands_pick_up (self->hands, is_in_hand (self) ? NULL : self->module);
}

/* Enter: take it, and go on filling with it in the order of fitting. */
static void
fill_next (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidTrayItem *self = LID_TRAY_ITEM (widget);

  if (!is_in_hand (self))
    lid_hands_pick_up (self->hands, self->module);
  lid_hands_fill_next (self->hands);
}

static void
fill_first_slots (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidTrayItem *self = LID_TRAY_ITEM (widget);

  if (!is_in_hand (self))
    lid_hands_pick_up (self->hands, self->module);
  lid_hands_fill_first_slots (self->hands);
}

static void
fill_all (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidTrayItem *self = LID_TRAY_ITEM (widget);

  lid_hands_pick_up (self->hands, self->module);
  lid_hands_fill_alike (self->hands, 0);
}

static void
drop (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidTrayItem *self = LID_TRAY_ITEM (widget);

  lid_hands_drop (self->hands, self->module, self->count);
}

static void
show_menu (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidTrayItem *self = LID_TRAY_ITEM (widget);

  if (self->menu == NULL)
    {
      g_autoptr (GMenu) menu = g_menu_new ();

      g_menu_append (menu, _ ("Take in Hand"), "tray.pick-up");
      g_menu_append (menu, _ ("Fill the Next Slot"), "tray.fill-next");
      g_menu_append (menu, _ ("Fill All First Slots"), "tray.fill-first-slots");
      g_menu_append (menu, _ ("Fill Every Slot Alike"), "tray.fill-all");
      g_menu_append (menu, _ ("Remove From the Tray"), "tray.drop");
      self->menu = gtk_popover_menu_new_from_model (G_MENU_MODEL (menu));
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->menu), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      _ ("What can be done with these modules"), -1);
      gtk_widget_set_parent (self->menu, widget);
    }
  lid_popover_place_show (GTK_POPOVER (self->menu));
}

static void
clicked (GtkGestureClick *gesture, int n, double x, double y, GtkWidget *widget)
{
  if (!gtk_widget_contains (widget, x, y))
    return; /* let go elsewhere */
  gtk_widget_grab_focus (widget);
  if (gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture)) == GDK_BUTTON_SECONDARY)
    gtk_widget_activate_action (widget, "tray.menu", NULL);
  else
    gtk_widget_activate_action (widget, n > 1 ? "tray.fill-next" : "tray.pick-up", NULL);
}

static GdkContentProvider *
prepare_drag (GtkDragSource *source, double x, double y, LidTrayItem *self)
{
  return gdk_content_provider_new_typed (LID_TYPE_TRAY_ITEM, self);
}

static void
begin_drag (GtkDragSource *source, GdkDrag *drag, GtkWidget *widget)
{
  g_autoptr (GdkPaintable) picture = gtk_widget_paintable_new (widget);

  gtk_drag_source_set_icon (source, picture, 0, 0);
}

static void
lid_tray_item_dispose (GObject *object)
{
  LidTrayItem *self = LID_TRAY_ITEM (object);
  GtkWidget *child;

  self->menu = NULL;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->hands);
  g_clear_pointer (&self->module, lid_module_unref);
  G_OBJECT_CLASS (lid_tray_item_parent_class)->dispose (object);
}

static void
lid_tray_item_class_init (LidTrayItemClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_tray_item_dispose;
  gtk_widget_class_set_css_name (widget_class, "trayitem");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_BUTTON);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_install_action (widget_class, "tray.pick-up", NULL, pick_up);
  gtk_widget_class_install_action (widget_class, "tray.fill-next", NULL, fill_next);
  gtk_widget_class_install_action (widget_class, "tray.fill-first-slots", NULL, fill_first_slots);
  gtk_widget_class_install_action (widget_class, "tray.fill-all", NULL, fill_all);
  gtk_widget_class_install_action (widget_class, "tray.drop", NULL, drop);
  gtk_widget_class_install_action (widget_class, "tray.menu", NULL, show_menu);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_space, 0, "tray.pick-up", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, 0, "tray.fill-next", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Enter, 0, "tray.fill-next", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Delete, 0, "tray.drop", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Menu, 0, "tray.menu", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F10, GDK_SHIFT_MASK, "tray.menu",
                                       NULL);
}

static GtkWidget *
add_label (LidTrayItem *self, GtkWidget *parent, const char *css)
{
  GtkWidget *label = lid_steady_label_new (FALSE);

  gtk_widget_add_css_class (label, css);
  gtk_widget_set_parent (label, parent);
  return label;
}

static void
lid_tray_item_init (LidTrayItem *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkGesture *click = gtk_gesture_click_new ();
  GtkDragSource *source = gtk_drag_source_new ();

  self->shown = TRUE;
  gtk_widget_set_focusable (widget, TRUE);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (widget)),
                                  GTK_ORIENTATION_VERTICAL);
  self->amount = add_label (self, widget, "amount");
  self->rest = add_label (self, widget, "rest");
  self->origin = add_label (self, widget, "origin");
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), 0);
  g_signal_connect (click, "released", G_CALLBACK (clicked), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));
  gtk_drag_source_set_actions (source, GDK_ACTION_COPY);
  g_signal_connect (source, "prepare", G_CALLBACK (prepare_drag), self);
  g_signal_connect (source, "drag-begin", G_CALLBACK (begin_drag), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (source));
}

/**
 * lid_tray_item_new:
 * @hands: (transfer none): the hands that pick it up
 */
GtkWidget *
lid_tray_item_new (LidHands *hands)
{
  LidTrayItem *self = g_object_new (LID_TYPE_TRAY_ITEM, NULL);

  self->hands = g_object_ref (hands);
  g_signal_connect_object (hands, "changed", G_CALLBACK (show_held), self, G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}
