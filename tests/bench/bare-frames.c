/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bare-frames [N [WIDTH HEIGHT]]: what our board is held against: a window with 192 slots, each a
 * widget that draws a rounded box with one or two texts, and a status line. No rules, no figures,
 * no notes. "one": one slot drawn again; "all": all of them. */
#include "bare-board.h"
#include "frames.h"

#define ACROSS 16
#define DOWN 12

typedef struct
{
  GtkWidget parent_instance;
  guint index;
} BareSlot;

typedef GtkWidgetClass BareSlotClass;

GType bare_slot_get_type (void);
G_DEFINE_FINAL_TYPE (BareSlot, bare_slot, GTK_TYPE_WIDGET)

static void
bare_slot_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BareSlot *self = (BareSlot *)widget;
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot,
                                           &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  char title[16];

  g_snprintf (title, sizeof title, "%c%u", 'A' + self->index / ACROSS, self->index % ACROSS + 1);
  bare_slot (cr, width, height, title, self->index % 3 ? "32 G" : "", self->index % 17 == 0);
  cairo_destroy (cr);
}

static void
bare_slot_class_init (BareSlotClass *klass)
{
  klass->snapshot = bare_slot_snapshot;
  gtk_widget_class_set_css_name (klass, "slot");
}

static void
bare_slot_init (BareSlot *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
}

static void
redraw_one (gpointer data, guint frame)
{
  GtkWidget **slots = data;

  gtk_widget_queue_draw (slots[3 * ACROSS + 3]);
}

static void
redraw_all (gpointer data, guint frame)
{
  GtkWidget **slots = data;

  for (guint i = 0; i < ACROSS * DOWN; i++)
    gtk_widget_queue_draw (slots[i]);
}

int
main (int argc, char **argv)
{
  guint n = argc > 1 ? (guint)atoi (argv[1]) : 100;
  GtkWidget *window, *box, *grid, *slots[ACROSS * DOWN];

  gtk_init ();
  window = gtk_window_new ();
  box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  grid = gtk_grid_new ();
  gtk_grid_set_row_homogeneous (GTK_GRID (grid), TRUE);
  gtk_grid_set_column_homogeneous (GTK_GRID (grid), TRUE);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_widget_set_vexpand (grid, TRUE);
  for (guint i = 0; i < ACROSS * DOWN; i++)
    {
      slots[i] = g_object_new (bare_slot_get_type (), "hexpand", TRUE, "vexpand", TRUE, NULL);
      ((BareSlot *)slots[i])->index = i;
      gtk_grid_attach (GTK_GRID (grid), slots[i], (int)(i % ACROSS), (int)(i / ACROSS), 1, 1);
    }
  gtk_box_append (GTK_BOX (box), grid);
  gtk_box_append (GTK_BOX (box), gtk_label_new ("128 modules"));
  gtk_window_set_child (GTK_WINDOW (window), box);
  gtk_window_set_default_size (GTK_WINDOW (window), argc > 3 ? atoi (argv[2]) : 1280,
                               argc > 3 ? atoi (argv[3]) : 820);
  gtk_window_present (GTK_WINDOW (window));
  frames_settle (window);
  frames_run (window, "one", n, redraw_one, slots);
  frames_run (window, "all", n, redraw_all, slots);
  return 0;
}
