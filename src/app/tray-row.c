/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/tray-row.h"

#include "app/tray-item.h"

#define GAP 12

/* Items come and go with every hand. As long as the row has room for them they are given their
 * places at once: the window around them need not be laid out again. Those that show nothing stay
 * in the row, unseen, and come back first. */
struct _LidTrayRow
{
  GtkWidget parent_instance;

  guint n; /* items that show something: the first children */
};

G_DEFINE_FINAL_TYPE (LidTrayRow, lid_tray_row, GTK_TYPE_WIDGET)

/* Room for all of them. */
static void
need (LidTrayRow *self, int *width, int *height)
{
  GtkWidget *item = gtk_widget_get_first_child (GTK_WIDGET (self));

  *width = *height = 0;
  for (guint i = 0; i < self->n; i++, item = gtk_widget_get_next_sibling (item))
    {
      int least, wide, high;

      gtk_widget_measure (item, GTK_ORIENTATION_HORIZONTAL, -1, &least, &wide, NULL, NULL);
      gtk_widget_measure (item, GTK_ORIENTATION_VERTICAL, -1, &least, &high, NULL, NULL);
      *width += wide + (i > 0 ? GAP : 0);
      *height = MAX (*height, high);
    }
}

static void
lid_tray_row_measure (GtkWidget *widget,
                      GtkOrientation orientation,
                      int for_size,
                      int *minimum,
                      int *natural,
                      int *minimum_baseline,
                      int *natural_baseline)
{
  int width, height;

  need (LID_TRAY_ROW (widget), &width, &height);
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? width : height;
}

/* From the side where reading begins, in the middle of the height. */
static void
lid_tray_row_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  LidTrayRow *self = LID_TRAY_ROW (widget);
  gboolean mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  GtkWidget *item = gtk_widget_get_first_child (widget);
  int x = 0;

  for (guint i = 0; i < self->n; i++, item = gtk_widget_get_next_sibling (item))
    {
      int least, wide, high;
      GtkAllocation at;

      gtk_widget_measure (item, GTK_ORIENTATION_HORIZONTAL, -1, &least, &wide, NULL, NULL);
      gtk_widget_measure (item, GTK_ORIENTATION_VERTICAL, -1, &least, &high, NULL, NULL);
      high = MIN (high, MAX (height, least));
      at = (GtkAllocation){ mirrored ? width - x - wide : x, MAX (0, (height - high) / 2), wide,
                            high };
      gtk_widget_size_allocate (item, &at, -1);
      x += wide + GAP;
    }
}

static void
lay_out (LidTrayRow *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int width, height;

  need (self, &width, &height);
  if (gtk_widget_get_mapped (widget) && width <= gtk_widget_get_width (widget)
      && height <= gtk_widget_get_height (widget))
    lid_tray_row_size_allocate (widget, gtk_widget_get_width (widget),
                                gtk_widget_get_height (widget), -1);
  else
    gtk_widget_queue_resize (widget);
}

/**
 * lid_tray_row_show:
 * @hands: what picks items up
 * @groups: (element-type LidTrayGroup): what lies on the tray
 *
 * Shows the groups in the items there are, so that the focus and what a screen reader is reading
 * stay where they are.
 */
void
lid_tray_row_show (LidTrayRow *self, LidHands *hands, const GPtrArray *groups)
{
  GtkWidget *item = gtk_widget_get_first_child (GTK_WIDGET (self));
  guint before = self->n;

  self->n = groups->len;
  for (guint i = 0; i < groups->len; i++)
    {
      if (item == NULL)
        {
          item = lid_tray_item_new (hands);
          gtk_widget_set_parent (item, GTK_WIDGET (self));
        }
      lid_tray_item_show (LID_TRAY_ITEM (item), groups->pdata[i]);
      item = gtk_widget_get_next_sibling (item);
    }
  for (guint i = groups->len; i < before; i++, item = gtk_widget_get_next_sibling (item))
    lid_tray_item_show_nothing (LID_TRAY_ITEM (item));
  if (before != self->n)
    lay_out (self);
}

/**
 * lid_tray_row_clear:
 *
 * Forgets its items, and the hands they are picked up with.
 */
void
lid_tray_row_clear (LidTrayRow *self)
{
  GtkWidget *item;

  self->n = 0;
  while ((item = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (item);
}

/**
 * lid_tray_row_find:
 * @module: a module
 *
 * Returns: (transfer none) (nullable): the item that holds it or one like it
 */
GtkWidget *
lid_tray_row_find (LidTrayRow *self, const LidModule *module)
{
  GtkWidget *item = gtk_widget_get_first_child (GTK_WIDGET (self));

  for (guint i = 0; i < self->n; i++, item = gtk_widget_get_next_sibling (item))
    if (lid_tray_alike (lid_tray_item_get_module (LID_TRAY_ITEM (item)), module))
      return item;
  return NULL;
}

static void
lid_tray_row_dispose (GObject *object)
{
  lid_tray_row_clear (LID_TRAY_ROW (object));
  G_OBJECT_CLASS (lid_tray_row_parent_class)->dispose (object);
}

static void
lid_tray_row_class_init (LidTrayRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_tray_row_dispose;
  widget_class->measure = lid_tray_row_measure;
  widget_class->size_allocate = lid_tray_row_size_allocate;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
lid_tray_row_init (LidTrayRow *self)
{
}
