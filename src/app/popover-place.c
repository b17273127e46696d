/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/popover-place.h"

static gboolean
show (gpointer data)
{
  GtkPopover *popover = data;
  GtkWidget *widget = gtk_widget_get_parent (GTK_WIDGET (popover));
  GtkWidget *room = widget != NULL ? gtk_widget_get_ancestor (widget, GTK_TYPE_VIEWPORT) : NULL;
  graphene_rect_t bounds;
  double x, y;

  if (widget == NULL || !gtk_widget_get_mapped (widget))
    return G_SOURCE_REMOVE;
  if (room != NULL && gtk_widget_compute_bounds (widget, room, &bounds))
    {
      double left = CLAMP (bounds.origin.x, 0, gtk_widget_get_width (room) - 1);
      double top = CLAMP (bounds.origin.y, 0, gtk_widget_get_height (room) - 1);
      double right = CLAMP (bounds.origin.x + bounds.size.width, left + 1,
                            MAX (gtk_widget_get_width (room), left + 1));
      double bottom = CLAMP (bounds.origin.y + bounds.size.height, top + 1,
                             MAX (gtk_widget_get_height (room), top + 1));

      if (gtk_widget_translate_coordinates (room, widget, left, top, &x, &y))
        gtk_popover_set_pointing_to (
            popover, &(GdkRectangle){ (int)x, (int)y, (int)(right - left), (int)(bottom - top) });
    }
  gtk_popover_popup (popover);
  return G_SOURCE_REMOVE;
}

/**
 * lid_popover_place_show:
 * @popover: the menu of its parent
 *
 * A screen reader may ask for the menu of a slot that is scrolled away: GTK would put it outside of
 * every screen. It points at what is seen of the widget, else at the edge nearest to it; after what
 * scrolls now came to rest.
 */
void
lid_popover_place_show (GtkPopover *popover)
{
  g_idle_add_full (G_PRIORITY_LOW, show, g_object_ref (popover), g_object_unref);
}
