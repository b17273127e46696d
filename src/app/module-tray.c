/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/module-tray.h"

#include "app/slot-button.h"
#include "app/tray-row.h"
#include "app/wrapped.h"

#include <glib/gi18n.h>
#include <string.h>

struct _LidModuleTray
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *content;
  GtkWidget *entry;
  GtkWidget *items;
  GtkWidget *items_place;
  GtkWidget *nothing;
  GtkWidget *sentence;
  /* owned */
  LidHands *hands;
};

G_DEFINE_FINAL_TYPE (LidModuleTray, lid_module_tray, GTK_TYPE_WIDGET)

static void
say (LidModuleTray *self, const char *sentence)
{
  gtk_label_set_label (GTK_LABEL (self->sentence), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (self->sentence, sentence != NULL && *sentence != 0);
}

static void
complained (LidHands *hands, const char *sentence, LidModuleTray *self)
{
  say (self, sentence);
  gtk_widget_error_bell (GTK_WIDGET (self));
}

/**
 * lid_module_tray_get_sentence:
 *
 * Returns: what the tray says at the moment, empty when nothing is wrong
 */
const char *
lid_module_tray_get_sentence (LidModuleTray *self)
{
  return gtk_label_get_label (GTK_LABEL (self->sentence));
}

static void
show_tray (LidModuleTray *self)
{
  LidJobModel *model = lid_hands_get_model (self->hands);
  g_autoptr (GPtrArray) tray
      = lid_edits_tray (lid_job_model_get_edits (model), lid_job_model_get_of (model));

  say (self, NULL);
  lid_tray_row_show (LID_TRAY_ROW (self->items), self->hands, tray);
  gtk_widget_set_visible (self->nothing, tray->len == 0);
  gtk_widget_set_visible (self->items_place, tray->len > 0);
}

/**
 * lid_module_tray_find:
 * @module: a module
 *
 * Returns: (transfer none) (nullable): the item that holds it or one like it
 */
GtkWidget *
lid_module_tray_find (LidModuleTray *self, const LidModule *module)
{
  return lid_tray_row_find (LID_TRAY_ROW (self->items), module);
}

/**
 * lid_module_tray_enter:
 * @text: what was typed or scanned before Enter
 *
 * A slot's name fills that slot, nothing at all fills the next one, everything else is a label.
 */
void
lid_module_tray_enter (LidModuleTray *self, const char *text)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (text));
  gboolean ok;

  say (self, NULL);
  if (*trimmed == 0)
    ok = lid_hands_fill_next (self->hands);
  else
    ok = lid_hands_name_slot (self->hands, trimmed) || lid_hands_add (self->hands, trimmed);
  if (ok)
    gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
  else
    gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
}

static void
entered (GtkEntry *entry, LidModuleTray *self)
{
  if (self->hands != NULL)
    lid_module_tray_enter (self, gtk_editable_get_text (GTK_EDITABLE (entry)));
}

/* A module dragged here comes out of its slot. */
static gboolean
dropped (GtkDropTarget *target, const GValue *value, double x, double y, LidModuleTray *self)
{
  LidSlotButton *from = g_value_get_object (value);

  return self->hands != NULL && from != NULL
         && lid_hands_empty (self->hands, lid_slot_button_get_slot (from));
}

static void
enter_label (GtkWidget *widget, const char *action, GVariant *parameter)
{
  gtk_widget_grab_focus (LID_MODULE_TRAY (widget)->entry);
}

/**
 * lid_module_tray_set_hands:
 * @hands: (nullable): the hands of another job
 */
void
lid_module_tray_set_hands (LidModuleTray *self, LidHands *hands)
{
  if (self->hands == hands)
    return;
  lid_tray_row_clear (LID_TRAY_ROW (self->items));
  if (self->hands != NULL)
    {
      g_signal_handlers_disconnect_by_data (self->hands, self);
      g_signal_handlers_disconnect_by_data (lid_hands_get_model (self->hands), self);
    }
  g_set_object (&self->hands, hands);
  if (hands == NULL)
    return;
  g_signal_connect_object (hands, "complained", G_CALLBACK (complained), self, 0);
  g_signal_connect_object (lid_hands_get_model (hands), "changed", G_CALLBACK (show_tray), self,
                           G_CONNECT_SWAPPED);
  show_tray (self);
}

static void
lid_module_tray_dispose (GObject *object)
{
  LidModuleTray *self = LID_MODULE_TRAY (object);

  lid_module_tray_set_hands (self, NULL);
  gtk_widget_dispose_template (GTK_WIDGET (self), LID_TYPE_MODULE_TRAY);
  G_OBJECT_CLASS (lid_module_tray_parent_class)->dispose (object);
}

static void
lid_module_tray_class_init (LidModuleTrayClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_module_tray_dispose;
  g_type_ensure (LID_TYPE_TRAY_ROW);
  g_type_ensure (LID_TYPE_WRAPPED);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/lidleaf/Lidleaf/ui/module-tray.ui");
  gtk_widget_class_bind_template_child (widget_class, LidModuleTray, content);
  gtk_widget_class_bind_template_child (widget_class, LidModuleTray, entry);
  gtk_widget_class_bind_template_child (widget_class, LidModuleTray, items);
  gtk_widget_class_bind_template_child (widget_class, LidModuleTray, items_place);
  gtk_widget_class_bind_template_child (widget_class, LidModuleTray, nothing);
  gtk_widget_class_bind_template_child (widget_class, LidModuleTray, sentence);
  gtk_widget_class_bind_template_callback (widget_class, entered);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "tray");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_install_action (widget_class, "tray.label", NULL, enter_label);
}

static void
lid_module_tray_init (LidModuleTray *self)
{
  GtkDropTarget *target = gtk_drop_target_new (LID_TYPE_SLOT_BUTTON, GDK_ACTION_COPY);

  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (target, "drop", G_CALLBACK (dropped), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
}

GtkWidget *
lid_module_tray_new (void)
{
  return g_object_new (LID_TYPE_MODULE_TRAY, NULL);
}
