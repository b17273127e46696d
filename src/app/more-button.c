/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/more-button.h"

#include "app/findings-popover.h"

struct _LidMoreButton
{
  GtkWidget parent_instance;

  LidBoardArea *area; /* borrowed: the parent */
};

G_DEFINE_FINAL_TYPE (LidMoreButton, lid_more_button, GTK_TYPE_WIDGET)

static void
open_list (GtkWidget *widget, const char *action, GVariant *parameter)
{
  lid_findings_popover_open (widget, LID_MORE_BUTTON (widget)->area, NULL);
}

static void
clicked (GtkGestureClick *gesture, int n, double x, double y, GtkWidget *widget)
{
  if (gtk_widget_contains (widget, x, y))
    gtk_widget_activate_action (widget, "more.open", NULL);
}

static void
lid_more_button_dispose (GObject *object)
{
  lid_findings_popover_close (GTK_WIDGET (object));
  G_OBJECT_CLASS (lid_more_button_parent_class)->dispose (object);
}

static void
lid_more_button_class_init (LidMoreButtonClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  static const guint keys[] = { GDK_KEY_Return, GDK_KEY_KP_Enter, GDK_KEY_space };

  G_OBJECT_CLASS (klass)->dispose = lid_more_button_dispose;
  gtk_widget_class_set_css_name (widget_class, "note");
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_BUTTON);
  gtk_widget_class_install_action (widget_class, "more.open", NULL, open_list);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding_action (widget_class, keys[i], 0, "more.open", NULL);
}

static void
lid_more_button_init (LidMoreButton *self)
{
  GtkGesture *click = gtk_gesture_click_new ();

  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "pointer");
  g_signal_connect (click, "released", G_CALLBACK (clicked), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
}

/**
 * lid_more_button_new:
 * @area: the board it lies beside, which becomes its parent
 */
GtkWidget *
lid_more_button_new (LidBoardArea *area)
{
  LidMoreButton *self = g_object_new (LID_TYPE_MORE_BUTTON, NULL);

  self->area = area;
  return GTK_WIDGET (self);
}
