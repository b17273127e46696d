/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the board shows beside its slots: findings that open, slots a note points at, the way from
 * one view to the other, and the line of figures in any width. In process. */
#include "app/board-area-private.h"
#include "app/figures-bar.h"
#include "app/note-button.h"
#include "desk.h"

#include <string.h>

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

static void
set_motion (Desk *desk, gboolean wanted)
{
  g_object_set (gtk_widget_get_settings (desk->window), "gtk-enable-animations", wanted, NULL);
}

static GtkWidget *
find_child (GtkWidget *widget, GType type)
{
  GtkWidget *found = g_type_is_a (G_OBJECT_TYPE (widget), type) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_child (child, type);
  return found;
}

static guint
count_rows (GtkWidget *list)
{
  guint n = 0;

  for (GtkWidget *row = gtk_widget_get_first_child (list); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    n += GTK_IS_LIST_BOX_ROW (row);
  return n;
}

/* The window is too narrow for a margin: one line, and behind it every finding and its slot. */
static void
test_more (Desk *desk, gconstpointer data)
{
  const LidAssessment *assessment = lid_job_model_get_assessment (desk->model);
  const LidBoardNote *note;
  GtkWidget *list, *room = gtk_widget_get_parent (GTK_WIDGET (desk->board));

  gtk_widget_set_margin_end (gtk_widget_get_parent (room), 460);
  while (gtk_widget_get_width (room) > 600)
    g_main_context_iteration (NULL, TRUE);
  gtk_test_widget_wait_for_draw (desk->window);
  note = lid_board_area_find_note (desk->board, NULL);
  g_assert_nonnull (note);
  g_assert_cmpuint (note->n_findings, ==, assessment->findings->len);
  g_assert_true (gtk_widget_get_child_visible (desk->board->more));
  gtk_widget_grab_focus (desk->board->more);
  g_assert_true (gtk_widget_has_focus (desk->board->more));
  g_assert_true (gtk_widget_activate_action (desk->board->more, "more.open", NULL));
  list = find_child (desk->board->more, GTK_TYPE_LIST_BOX);
  g_assert_nonnull (list);
  g_assert_cmpuint (count_rows (list), ==, assessment->findings->len);
  /* A row leads to the slot it speaks of. */
  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (finding->n_slots == 0)
        continue;
      g_signal_emit_by_name (list, "row-activated",
                             gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), (int)i));
      g_assert_true (gtk_widget_has_focus (lid_board_area_get_slot (desk->board, finding->slots[0]))
                     || desk->board->last
                            == lid_board_area_get_slot (desk->board, finding->slots[0]));
      break;
    }
  desk_settle ();
}

static void
test_point (Desk *desk, gconstpointer data)
{
  const LidAssessment *assessment = lid_job_model_get_assessment (desk->model);

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];
      guint n = 0;

      lid_board_area_point_at (desk->board, (int)i);
      for (guint s = 0; s < desk->board->slots->len; s++)
        n += lid_board_area_is_pointed_at (desk->board, s);
      g_assert_cmpuint (n, ==, finding->n_slots);
    }
  lid_board_area_point_at (desk->board, LID_NOWHERE);
  g_assert_false (lid_board_area_is_pointed_at (desk->board, 0));
}

static GBytes *
picture (Desk *desk)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (GTK_WIDGET (desk->board));
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) node = NULL;
  g_autoptr (GdkTexture) texture = NULL;

  gdk_paintable_snapshot (paintable, snapshot, gtk_widget_get_width (GTK_WIDGET (desk->board)),
                          gtk_widget_get_height (GTK_WIDGET (desk->board)));
  node = gtk_snapshot_free_to_node (snapshot);
  texture = gsk_renderer_render_texture (gtk_native_get_renderer (GTK_NATIVE (desk->window)), node,
                                         NULL);
  return gdk_texture_save_to_png_bytes (texture);
}

/* Without motion the other view stands at once. With it slots are on their way, the widgets in
 * place; there, the picture is the same. Turned round on the way, it ends where it began. */
static void
test_motion (Desk *desk, gconstpointer data)
{
  g_autoptr (GBytes) still = NULL;
  g_autoptr (GBytes) moved = NULL;
  gint64 late = g_get_monotonic_time () + 5 * G_USEC_PER_SEC;

  set_motion (desk, FALSE);
  lid_board_area_set_lid_off (desk->board, TRUE);
  g_assert_null (desk->board->motion);
  gtk_test_widget_wait_for_draw (desk->window);
  still = picture (desk);
  lid_board_area_set_lid_off (desk->board, FALSE);
  gtk_test_widget_wait_for_draw (desk->window);
  set_motion (desk, TRUE);
  lid_board_area_set_lid_off (desk->board, TRUE);
  g_assert_nonnull (desk->board->motion);
  gtk_test_widget_wait_for_draw (desk->window);
  lid_board_area_set_lid_off (desk->board, FALSE);
  lid_board_area_set_lid_off (desk->board, TRUE);
  g_assert_nonnull (desk->board->motion);
  g_assert_true (lid_board_area_get_geometry (desk->board)->lid_off);
  while (desk->board->motion != NULL && g_get_monotonic_time () < late)
    g_main_context_iteration (NULL, TRUE);
  g_assert_null (desk->board->motion);
  gtk_test_widget_wait_for_draw (desk->window);
  moved = picture (desk);
  g_assert_true (g_bytes_equal (still, moved));
}

/* An edit on the way ends it: what is drawn is what is. */
static void
test_edit_ends_motion (Desk *desk, gconstpointer data)
{
  set_motion (desk, TRUE);
  lid_board_area_set_lid_off (desk->board, TRUE);
  g_assert_nonnull (desk->board->motion);
  g_assert_true (
      gtk_widget_activate_action (lid_board_area_get_slot (desk->board, 0), "slot.empty", NULL));
  g_assert_null (desk->board->motion);
}

/* No figure leaves the bar, none lies on another; narrow, they stand below each other. */
static void
test_figures (Desk *desk, gconstpointer data)
{
  GtkWidget *bar = g_object_ref_sink (g_object_new (LID_TYPE_FIGURES_BAR, NULL));
  GtkWidget *end = gtk_label_new ("By channel  Lid off");
  int wide, last = 0, minimum;

  lid_figures_bar_show (LID_FIGURES_BAR (bar), lid_job_model_get_assessment (desk->model), NULL,
                        lid_job_model_get_job (desk->model)->board);
  lid_figures_bar_set_end (LID_FIGURES_BAR (bar), end);
  gtk_widget_measure (bar, GTK_ORIENTATION_HORIZONTAL, -1, &minimum, &wide, NULL, NULL);
  for (int width = wide; width >= minimum; width -= 40)
    {
      int height = 0;
      GtkWidget *one, *two;

      gtk_widget_measure (bar, GTK_ORIENTATION_VERTICAL, width, &height, NULL, NULL, NULL);
      g_assert_cmpint (height, >=, last);
      last = height;
      gtk_widget_allocate (bar, width, height, -1, NULL);
      for (one = gtk_widget_get_first_child (bar); one != NULL;
           one = gtk_widget_get_next_sibling (one))
        {
          graphene_rect_t a, b;

          g_assert_true (gtk_widget_compute_bounds (one, bar, &a));
          g_assert_cmpfloat (a.origin.x, >=, 0);
          g_assert_cmpfloat (a.origin.x + a.size.width, <=, width);
          g_assert_cmpfloat (a.origin.y + a.size.height, <=, height);
          for (two = gtk_widget_get_next_sibling (one); two != NULL;
               two = gtk_widget_get_next_sibling (two))
            {
              g_assert_true (gtk_widget_compute_bounds (two, bar, &b));
              g_assert_false (graphene_rect_intersection (&a, &b, NULL));
            }
        }
    }
  g_object_unref (bar);
}

/* One thing that makes slots look otherwise; whether it is undone again by doing it twice does not
 * matter. */
static void
act (Desk *desk, guint what)
{
  const LidAssessment *assessment = lid_job_model_get_assessment (desk->model);
  const LidPopulation *population = lid_board_area_get_population (desk->board);
  guint filled = 0;

  while (filled + 1 < population->n_slots && population->slots[filled].module == NULL)
    filled++;
  switch (what)
    {
    case 0: /* the keyboard */
      gtk_window_set_focus_visible (GTK_WINDOW (desk->window), TRUE);
      gtk_widget_grab_focus (lid_board_area_get_slot (desk->board, 2));
      break;
    case 1: /* a note points at its slots */
      for (guint i = 0; i < assessment->findings->len; i++)
        if (((const LidFinding *)assessment->findings->pdata[i])->n_slots > 0)
          lid_board_area_point_at (desk->board, (int)i);
      break;
    case 2:
      lid_hands_empty (desk->hands, filled);
      break;
    case 3: /* what comes next for the hand */
      lid_hands_pick_up (desk->hands, population->slots[filled].module);
      break;
    case 4:
      lid_job_model_undo (desk->model);
      break;
    default:
      lid_job_model_set_of (desk->model, LID_AS_FOUND);
      break;
    }
}

/* What is kept of the board from frame to frame is what would be drawn anew. */
static void
test_kept (Desk *desk, gconstpointer data)
{
  g_autoptr (GBytes) last = picture (desk);

  for (guint what = 0; what < 6; what++)
    {
      g_autoptr (GBytes) kept = NULL, anew = NULL;

      act (desk, what);
      gtk_test_widget_wait_for_draw (desk->window);
      kept = picture (desk);
      lid_board_area_repaint_all (desk->board);
      gtk_test_widget_wait_for_draw (desk->window);
      anew = picture (desk);
      if (!g_bytes_equal (kept, anew))
        g_error ("act %u: what is kept is not what is drawn anew", what);
      if (g_bytes_equal (kept, last))
        g_error ("act %u: nothing looks otherwise", what);
      g_bytes_unref (last);
      last = g_bytes_ref (kept);
    }
}

/* What was not to be seen for a while has a place when it comes back, after edits too: GTK warns of
 * what has none, and a warning ends the test. */
static void
test_away (Desk *desk, gconstpointer data)
{
  for (guint what = 0; what < 6; what++)
    {
      gtk_widget_set_visible (GTK_WIDGET (desk->bench), FALSE);
      gtk_test_widget_wait_for_draw (desk->window);
      act (desk, what);
      gtk_widget_set_visible (GTK_WIDGET (desk->bench), TRUE);
      gtk_test_widget_wait_for_draw (desk->window);
      for (guint i = 0; i < desk->board->slots->len; i++)
        g_assert_cmpint (gtk_widget_get_width (desk->board->slots->pdata[i]), >, 1);
    }
}

/* A drag over a slot makes GTK want it laid out again, and draw nothing of it before. */
static void
test_drag_over (Desk *desk, gconstpointer data)
{
  GtkWidget *slot = lid_board_area_get_slot (desk->board, 1);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  GskRenderNode *node;

  gtk_widget_set_state_flags (slot, GTK_STATE_FLAG_DROP_ACTIVE, FALSE);
  gtk_widget_queue_resize (slot);
  gtk_test_widget_wait_for_draw (desk->window);
  gtk_widget_snapshot_child (gtk_widget_get_parent (slot), slot, snapshot);
  node = gtk_snapshot_free_to_node (snapshot);
  g_assert_nonnull (node);
  gsk_render_node_unref (node);
  gtk_widget_unset_state_flags (slot, GTK_STATE_FLAG_DROP_ACTIVE);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (Desk *, gconstpointer);
  } tests[] = {
    { "/board-look/more", test_more },
    { "/board-look/point", test_point },
    { "/board-look/kept", test_kept },
    { "/board-look/away", test_away },
    { "/board-look/motion", test_motion },
    { "/board-look/edit-ends-motion", test_edit_ends_motion },
    { "/board-look/figures", test_figures },
    { "/board-look/drag-over", test_drag_over },
  };

  gtk_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Desk, NULL, set_up, tests[i].test, tear_down);
  return g_test_run ();
}
