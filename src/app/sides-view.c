/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/sides-view.h"

#include "app/popover-place.h"

#define LEAST_SIDE 400 /* a board narrower than this is not read well */
#define GAP 12

struct _LidSidesView
{
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (LidSidesView, lid_sides_view, GTK_TYPE_WIDGET)

static int
count_shown (GtkWidget *widget)
{
  int n = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += gtk_widget_should_layout (child);
  return n;
}

static void
lid_sides_view_measure (GtkWidget *widget,
                        GtkOrientation orientation,
                        int for_size,
                        int *minimum,
                        int *natural,
                        int *minimum_baseline,
                        int *natural_baseline)
{
  *minimum = *natural = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int least, usual;

      if (!gtk_widget_should_layout (child))
        continue;
      gtk_widget_measure (child, orientation, -1, &least, &usual, NULL, NULL);
      *minimum = MAX (*minimum, least);
      *natural = MAX (*natural, usual);
    }
  /* Stacked they need room for each. */
  if (orientation == GTK_ORIENTATION_VERTICAL)
    {
      *minimum *= MAX (count_shown (widget), 1);
      *natural = MAX (*natural, *minimum);
    }
}

static void
lid_sides_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  int n = count_shown (widget), at = 0;
  gboolean beside = n > 1 && width >= n * LEAST_SIDE && width > height;
  int each = ((beside ? width : height) - MAX (n - 1, 0) * GAP) / MAX (n, 1);

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkAllocation box
          = { beside ? at : 0, beside ? 0 : at, beside ? each : width, beside ? height : each };

      GtkAllocation was;

      if (!gtk_widget_should_layout (child))
        continue;
      gtk_widget_get_allocation (child, &was);
      if (!gdk_rectangle_equal (&was, &box))
        lid_popover_place_close_latest (widget);
      gtk_widget_size_allocate (child, &box, -1);
      at += each + GAP;
    }
}

static void
lid_sides_view_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (lid_sides_view_parent_class)->dispose (object);
}

static void
lid_sides_view_class_init (LidSidesViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_sides_view_dispose;
  widget_class->measure = lid_sides_view_measure;
  widget_class->size_allocate = lid_sides_view_size_allocate;
  gtk_widget_class_set_css_name (widget_class, "sides");
}

static void
lid_sides_view_init (LidSidesView *self)
{
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
}
