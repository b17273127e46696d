/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/tooltip.h"

#define KEY "lid-tooltip"

/**
 * lid_tooltip_may_show:
 * @widget: was asked for its tooltip
 *
 * Over an open menu or help GTK asks the widget it belongs to as well: that stays silent, for the
 * pointer is not on it. And were the menu gone before GTK shows the tip, GTK 4.8 would ask where
 * the pointer is over a surface that is gone too, and log a critical.
 */
gboolean
lid_tooltip_may_show (GtkWidget *widget)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child) && gtk_widget_get_visible (child))
      return FALSE;
  return TRUE;
}

static gboolean
show (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tip, gpointer data)
{
  if (!lid_tooltip_may_show (widget))
    return FALSE;
  gtk_tooltip_set_text (tip, lid_tooltip_get (widget));
  return TRUE;
}

/**
 * lid_tooltip_set:
 * @text: what the pointer is told, and a screen reader as the description
 */
void
lid_tooltip_set (GtkWidget *widget, const char *text)
{
  const char *old = lid_tooltip_get (widget);

  if (g_strcmp0 (old, text) == 0)
    return;
  if (old == NULL)
    g_signal_connect (widget, "query-tooltip", G_CALLBACK (show), NULL);
  g_object_set_data_full (G_OBJECT (widget), KEY, g_strdup (text), g_free);
  gtk_widget_set_has_tooltip (widget, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  text, -1);
}

/**
 * lid_tooltip_get:
 *
 * Returns: (transfer none) (nullable): what was set
 */
const char *
lid_tooltip_get (GtkWidget *widget)
{
  return g_object_get_data (G_OBJECT (widget), KEY);
}
