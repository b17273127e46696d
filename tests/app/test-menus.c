/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Menus of slots and of the tray: shown where they are asked for, gone when their place is. */
#include "app/tooltip.h"
#include "desk.h"

static GtkWidget *
menu_of (GtkWidget *widget)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child))
      return child;
  return NULL;
}

static gboolean
is_open (GtkWidget *widget)
{
  GtkWidget *menu = menu_of (widget);

  return menu != NULL && gtk_widget_get_visible (menu);
}

/* Until the condition holds; a test that waits for ever is ended by its time limit. */
static void
wait_until_open (GtkWidget *widget, gboolean open)
{
  while (is_open (widget) != open)
    g_main_context_iteration (NULL, TRUE);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (gtk_widget_get_root (widget)));
}

/* It stays: nothing that its own opening sets off takes it away again. */
static void
check_stays (GtkWidget *widget)
{
  for (guint i = 0; i < 5; i++)
    {
      gtk_widget_queue_allocate (gtk_widget_get_parent (widget));
      gtk_test_widget_wait_for_draw (GTK_WIDGET (gtk_widget_get_root (widget)));
      desk_settle ();
    }
  g_assert_true (is_open (widget));
}

static GtkAdjustment *
scroller (Desk *desk)
{
  GtkWidget *room = gtk_widget_get_parent (GTK_WIDGET (desk->board));

  return gtk_scrollable_get_hadjustment (GTK_SCROLLABLE (room));
}

static GtkWidget *
open_menu (Desk *desk, guint slot)
{
  GtkWidget *button = lid_board_area_get_slot (desk->board, slot);

  gtk_widget_activate_action (button, "slot.menu", NULL);
  wait_until_open (button, TRUE);
  check_stays (button);
  return button;
}

/* Zoomed so far that one slot can be scrolled out of sight. */
static void
zoom_in (Desk *desk)
{
  GtkAdjustment *across = scroller (desk);

  lid_board_area_set_zoom (desk->board, 4);
  while (gtk_adjustment_get_upper (across) < 2.5 * gtk_adjustment_get_page_size (across))
    g_main_context_iteration (NULL, TRUE);
  gtk_test_widget_wait_for_draw (desk->window);
}

static void
scrolled_away (void)
{
  Desk desk;
  GtkWidget *slot;

  desk_lay (&desk, desk_example ());
  zoom_in (&desk);
  gtk_adjustment_set_value (scroller (&desk), 0);
  slot = open_menu (&desk, 0);
  gtk_adjustment_set_value (scroller (&desk), gtk_adjustment_get_upper (scroller (&desk)));
  wait_until_open (slot, FALSE);
  desk_settle ();
  /* Asked for while it cannot be seen: shown at the edge, with no critical. */
  slot = open_menu (&desk, 0);
  desk_clear (&desk);
}

/* Two asked for at once would scroll the board from under each other. */
static void
one_at_a_time (void)
{
  Desk desk;
  GtkWidget *first, *last;

  desk_lay (&desk, desk_example ());
  zoom_in (&desk);
  gtk_adjustment_set_value (scroller (&desk), 0);
  first = lid_board_area_get_slot (desk.board, 0);
  last = lid_board_area_get_slot (desk.board,
                                  lid_job_model_get_job (desk.model)->board->n_slots - 1);
  gtk_widget_activate_action (first, "slot.menu", NULL);
  gtk_widget_activate_action (last, "slot.menu", NULL);
  wait_until_open (last, TRUE);
  check_stays (last);
  g_assert_false (is_open (first));
  gtk_widget_activate_action (first, "slot.menu", NULL);
  g_assert_false (is_open (last));
  wait_until_open (first, TRUE);
  gtk_widget_activate_action (first, "slot.menu", NULL); /* again: it must not lose its place */
  wait_until_open (first, TRUE);
  gtk_adjustment_set_value (scroller (&desk), gtk_adjustment_get_upper (scroller (&desk)));
  wait_until_open (first, FALSE);
  desk_clear (&desk);
}

/* Beside a second board the first one has less room, and its slots lie elsewhere. */
static void
room_taken (void)
{
  Desk desk;
  GtkWidget *slot;

  desk_lay (&desk, desk_example ());
  slot = open_menu (&desk, 0);
  g_assert_false (lid_tooltip_may_show (slot));
  lid_bench_view_set_before_after (desk.bench, TRUE);
  wait_until_open (slot, FALSE);
  g_assert_true (lid_tooltip_may_show (slot));
  desk_clear (&desk);
}

/* The slot is drawn again when its help is gone: GTK warns of one that is not laid out. */
static void
help_gone (void)
{
  Desk desk;
  GtkWidget *slot;

  desk_lay (&desk, desk_example ());
  slot = lid_board_area_get_slot (desk.board, 0);
  gtk_widget_activate_action (slot, "slot.why", NULL);
  wait_until_open (slot, TRUE);
  gtk_popover_popdown (GTK_POPOVER (menu_of (slot)));
  while (menu_of (slot) != NULL)
    g_main_context_iteration (NULL, TRUE);
  gtk_widget_queue_draw (slot);
  gtk_test_widget_wait_for_draw (desk.window);
  desk_clear (&desk);
}

static void
out_of_date (void)
{
  Desk desk;
  GtkWidget *slot;

  desk_lay (&desk, desk_example ());
  slot = open_menu (&desk, 0);
  g_assert_true (lid_hands_empty (desk.hands, 0));
  wait_until_open (slot, FALSE);
  slot = lid_module_tray_find (desk.tray,
                               lid_job_model_get_job (desk.model)->as_found->slots[0].module);
  g_assert_nonnull (slot);
  gtk_widget_activate_action (slot, "tray.menu", NULL);
  wait_until_open (slot, TRUE);
  check_stays (slot);
  lid_job_model_undo (desk.model);
  desk_settle ();
  desk_clear (&desk);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/menus/scrolled-away", scrolled_away);
  g_test_add_func ("/menus/one-at-a-time", one_at_a_time);
  g_test_add_func ("/menus/room-taken", room_taken);
  g_test_add_func ("/menus/help-gone", help_gone);
  g_test_add_func ("/menus/out-of-date", out_of_date);
  return g_test_run ();
}
