/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/start-page.h"

#include "app/recent-jobs.h"
#include "app/window-actions.h"

#include <glib/gi18n.h>

#define MOST_SHOWN 5u

struct _LidStartPage
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *column;
  GtkWidget *recent;
  GtkBox *recent_list;
};

G_DEFINE_FINAL_TYPE (LidStartPage, lid_start_page, GTK_TYPE_WIDGET)

static GtkWidget *
link_to (const LidRecentJob *job)
{
  GtkWidget *button = gtk_button_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *title = gtk_label_new (job->title), *folder = gtk_label_new (job->folder);
  g_autofree char *name = NULL;

  gtk_label_set_ellipsize (GTK_LABEL (title), PANGO_ELLIPSIZE_END);
  gtk_label_set_ellipsize (GTK_LABEL (folder), PANGO_ELLIPSIZE_START);
  gtk_label_set_xalign (GTK_LABEL (folder), 1);
  gtk_widget_set_hexpand (folder, TRUE);
  gtk_widget_add_css_class (folder, "soft");
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), folder);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "link-text");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.open-recent");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", job->uri);
  name = g_strdup_printf (_ ("%s, in %s"), job->title, job->folder);
  lid_window_actions_name (button, name);
  return button;
}

static void
show_recent (LidStartPage *self)
{
  g_autoptr (GPtrArray) jobs = lid_recent_jobs_list (MOST_SHOWN);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->recent_list))) != NULL)
    gtk_box_remove (self->recent_list, child);
  for (guint i = 0; i < jobs->len; i++)
    gtk_box_append (self->recent_list, link_to (jobs->pdata[i]));
  gtk_widget_set_visible (self->recent, jobs->len > 0);
}

static void
lid_start_page_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), LID_TYPE_START_PAGE);
  G_OBJECT_CLASS (lid_start_page_parent_class)->dispose (object);
}

static void
lid_start_page_class_init (LidStartPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_start_page_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/lidleaf/Lidleaf/ui/start-page.ui");
  gtk_widget_class_bind_template_child (widget_class, LidStartPage, column);
  gtk_widget_class_bind_template_child (widget_class, LidStartPage, recent);
  gtk_widget_class_bind_template_child (widget_class, LidStartPage, recent_list);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
lid_start_page_init (LidStartPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_object (gtk_recent_manager_get_default (), "changed", G_CALLBACK (show_recent),
                           self, G_CONNECT_SWAPPED);
  show_recent (self);
}
