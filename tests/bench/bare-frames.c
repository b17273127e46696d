/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bare-frames [N [WIDTH HEIGHT]]: what our board is held against: a window with 192 slots, each a
 * widget that draws a rounded box with one or two texts, and a status line. No rules, no figures,
 * no notes. "one": one slot drawn again; "all": all of them; "edit": one slot filled or emptied by
 * turns, told to a screen reader, and counted in the status line. */
#include "bare-board.h"
#include "frames.h"

#define ACROSS 16
#define DOWN 12

typedef struct
{
  GtkWidget parent_instance;
  guint index;
  gboolean empty;
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
  bare_slot (cr, width, height, title, self->empty ? "" : "32 G", self->index % 17 == 0);
  cairo_destroy (cr);
}

static void
bare_slot_class_init (BareSlotClass *klass)
{
  klass->snapshot = bare_slot_snapshot;
  gtk_widget_class_set_css_name (klass, "slot");
  gtk_widget_class_set_accessible_role (klass, GTK_ACCESSIBLE_ROLE_CHECKBOX);
}

static void
bare_slot_init (BareSlot *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
}

typedef struct
{
  GtkWidget *slots[ACROSS * DOWN];
  GtkWidget *status;
} Bare;

static void
edit (gpointer data, guint frame)
{
  Bare *bare = data;
  BareSlot *slot = (BareSlot *)bare->slots[3 * ACROSS + 4];
  char words[32];
  guint n = 0;

  slot->empty = !slot->empty;
  gtk_accessible_update_property (GTK_ACCESSIBLE (slot), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  slot->empty ? "empty" : "32 G", -1);
  gtk_accessible_update_state (
      GTK_ACCESSIBLE (slot), GTK_ACCESSIBLE_STATE_CHECKED,
      slot->empty ? GTK_ACCESSIBLE_TRISTATE_FALSE : GTK_ACCESSIBLE_TRISTATE_TRUE, -1);
  gtk_widget_queue_draw (GTK_WIDGET (slot));
  for (guint i = 0; i < ACROSS * DOWN; i++)
    n += !((BareSlot *)bare->slots[i])->empty;
  g_snprintf (words, sizeof words, "%u modules installed", n);
  gtk_label_set_text (GTK_LABEL (bare->status), words);
}

static void
redraw_one (gpointer data, guint frame)
{
  Bare *bare = data;

  gtk_widget_queue_draw (bare->slots[3 * ACROSS + 3]);
}

static void
redraw_all (gpointer data, guint frame)
{
  Bare *bare = data;

  for (guint i = 0; i < ACROSS * DOWN; i++)
    gtk_widget_queue_draw (bare->slots[i]);
}

int
main (int argc, char **argv)
{
  guint n = argc > 1 ? (guint)atoi (argv[1]) : 100;
  GtkWidget *window, *box, *grid;
  Bare bare;

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
      bare.slots[i] = g_object_new (bare_slot_get_type (), "hexpand", TRUE, "vexpand", TRUE, NULL);
      ((BareSlot *)bare.slots[i])->index = i;
      ((BareSlot *)bare.slots[i])->empty = i % 3 == 0;
      gtk_grid_attach (GTK_GRID (grid), bare.slots[i], (int)(i % ACROSS), (int)(i / ACROSS), 1, 1);
    }
  gtk_box_append (GTK_BOX (box), grid);
  bare.status = gtk_label_new ("128 modules installed");
  gtk_box_append (GTK_BOX (box), bare.status);
  gtk_window_set_child (GTK_WINDOW (window), box);
  gtk_window_set_default_size (GTK_WINDOW (window), argc > 3 ? atoi (argv[2]) : 1280,
                               argc > 3 ? atoi (argv[3]) : 820);
  gtk_window_present (GTK_WINDOW (window));
  frames_settle (window);
  frames_run (window, "one", n, redraw_one, &bare);
  frames_run (window, "edit", n, edit, &bare);
  frames_run (window, "all", n, redraw_all, &bare);
  return 0;
}
