/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A board larger than its room, moved by its paper and while space is held. */
#include "app/board-area-private.h"
#include "desk.h"

static void
set_up (Desk *desk, gconstpointer data)
{
  desk_lay (desk, desk_example ());
  lid_job_model_set_of (desk->model, LID_PLANNED);
  desk_settle ();
}

static void
tear_down (Desk *desk, gconstpointer data)
{
  desk_clear (desk);
}

static GtkGesture *
drag_of (GtkWidget *widget)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkEventController) one = g_list_model_get_item (all, i);

      if (GTK_IS_GESTURE_DRAG (one))
        return GTK_GESTURE (one);
    }
  return NULL;
}

/* Held by the paper the sheet follows the pointer; held by a slot it stays: that drags the module.
 */
static void
test_pan (Desk *desk, gconstpointer data)
{
  GtkWidget *board = GTK_WIDGET (desk->board), *room = gtk_widget_get_parent (board);
  GtkAdjustment *across = gtk_scrollable_get_hadjustment (GTK_SCROLLABLE (room));
  const LidBox *slot;

  lid_board_area_set_zoom (desk->board, 4);
  while (gtk_adjustment_get_upper (across) < 2 * gtk_adjustment_get_page_size (across))
    g_main_context_iteration (NULL, TRUE);
  gtk_test_widget_wait_for_draw (desk->window);
  gtk_adjustment_set_value (across, 100);
  g_signal_emit_by_name (drag_of (board), "drag-begin", 1.0, 1.0);
  g_signal_emit_by_name (drag_of (board), "drag-update", -3.0, 0.0);
  g_assert_cmpfloat (gtk_adjustment_get_value (across), ==, 100); /* a click that trembles */
  g_signal_emit_by_name (drag_of (board), "drag-update", -40.0, 0.0);
  g_assert_cmpfloat (gtk_adjustment_get_value (across), ==, 140);
  g_signal_emit_by_name (drag_of (board), "drag-end", -40.0, 0.0);
  slot = &lid_board_area_get_geometry (desk->board)->slots[0].hit;
  g_signal_emit_by_name (drag_of (board), "drag-begin", slot->x + slot->width / 2,
                         slot->y + slot->height / 2);
  g_signal_emit_by_name (drag_of (board), "drag-update", 40.0, 0.0);
  g_assert_cmpfloat (gtk_adjustment_get_value (across), ==, 140);
}

static gboolean
press_space (GtkWidget *board, const char *signal)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (board);
  gboolean taken = FALSE;

  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkEventController) one = g_list_model_get_item (all, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (one) && g_str_equal (signal, "key-pressed"))
        g_signal_emit_by_name (one, signal, GDK_KEY_space, 0, 0, &taken);
      else if (GTK_IS_EVENT_CONTROLLER_KEY (one))
        g_signal_emit_by_name (one, signal, GDK_KEY_space, 0, 0);
    }
  return taken;
}

/* While space is held, with nothing in hand, a slot too moves the sheet. With a module in hand, or
 * where nothing can move, space is the slot's own. */
static void
test_space (Desk *desk, gconstpointer data)
{
  GtkWidget *board = GTK_WIDGET (desk->board), *room = gtk_widget_get_parent (board);
  GtkAdjustment *across = gtk_scrollable_get_hadjustment (GTK_SCROLLABLE (room));
  const LidBox *slot;

  g_assert_true (gtk_widget_grab_focus (lid_board_area_get_slot (desk->board, 0)));
  g_assert_false (press_space (board, "key-pressed")); /* all of it is seen */
  lid_board_area_set_zoom (desk->board, 4);
  while (gtk_adjustment_get_upper (across) < 2 * gtk_adjustment_get_page_size (across))
    g_main_context_iteration (NULL, TRUE);
  gtk_test_widget_wait_for_draw (desk->window);
  gtk_adjustment_set_value (across, 100);
  slot = &lid_board_area_get_geometry (desk->board)->slots[0].hit;
  g_assert_true (press_space (board, "key-pressed"));
  g_assert_true (press_space (board, "key-pressed")); /* repeated */
  g_signal_emit_by_name (drag_of (board), "drag-begin", slot->x + slot->width / 2,
                         slot->y + slot->height / 2);
  g_signal_emit_by_name (drag_of (board), "drag-update", -40.0, 0.0);
  g_assert_cmpfloat (gtk_adjustment_get_value (across), ==, 140);
  g_signal_emit_by_name (drag_of (board), "drag-end", -40.0, 0.0);
  press_space (board, "key-released");
  g_signal_emit_by_name (drag_of (board), "drag-begin", slot->x + slot->width / 2,
                         slot->y + slot->height / 2);
  g_signal_emit_by_name (drag_of (board), "drag-update", 40.0, 0.0);
  g_assert_cmpfloat (gtk_adjustment_get_value (across), ==, 140); /* let go */
  g_signal_emit_by_name (drag_of (board), "drag-end", 40.0, 0.0);
  lid_hands_pick_up (desk->hands, lid_board_area_get_population (desk->board)->slots[0].module);
  g_assert_false (press_space (board, "key-pressed"));
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (Desk *, gconstpointer);
  } tests[] = {
    { "/board-pan/paper", test_pan },
    { "/board-pan/space", test_space },
  };

  gtk_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Desk, NULL, set_up, tests[i].test, tear_down);
  return g_test_run ();
}
