/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What hands do on the board, in process: actions, clicks and drops as signals of their
 * controllers. That GTK delivers real ones is for drive.sh to see. */
#include "app/note-button.h"
#include "app/slot-words.h"
#include "app/tray-item.h"
#include "desk.h"

#include <string.h>

#define LABEL "32GB 2Rx4 PC4-2400T-RB1-11"

static void
set_up (Desk *desk, gconstpointer data)
{
  desk_lay (desk, desk_example ());
  lid_job_model_set_of (desk->model, LID_PLANNED);
}

static void
tear_down (Desk *desk, gconstpointer data)
{
  desk_clear (desk);
}

static guint
slot_index (Desk *desk, const char *name)
{
  int slot = lid_board_find_slot (lid_job_model_get_job (desk->model)->board, name);

  g_assert_cmpint (slot, !=, LID_NOWHERE);
  return (guint)slot;
}

static GtkWidget *
slot_of (Desk *desk, const char *name)
{
  return lid_board_area_get_slot (desk->board, slot_index (desk, name));
}

static const LidModule *
sits_in (Desk *desk, const char *name)
{
  return lid_job_model_get_population (desk->model)->slots[slot_index (desk, name)].module;
}

static GtkEventController *
controller_of (GtkWidget *widget, GType type)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkEventController) one = g_list_model_get_item (all, i);

      if (g_type_is_a (G_OBJECT_TYPE (one), type))
        return one;
    }
  g_assert_not_reached ();
}

static void
click (GtkWidget *widget)
{
  while (gtk_widget_get_width (widget) == 0)
    g_main_context_iteration (NULL, TRUE); /* new ones get their place in the next frame */
  g_signal_emit_by_name (controller_of (widget, GTK_TYPE_GESTURE_CLICK), "released", 1,
                         gtk_widget_get_width (widget) / 2.0, gtk_widget_get_height (widget) / 2.0);
  desk_settle ();
}

static gboolean
drop (GtkWidget *target, GtkWidget *what)
{
  g_auto (GValue) value = G_VALUE_INIT;
  gboolean taken = FALSE;

  g_value_init (&value, G_OBJECT_TYPE (what));
  g_value_set_object (&value, what);
  g_signal_emit_by_name (controller_of (target, GTK_TYPE_DROP_TARGET), "drop", &value, 4.0, 4.0,
                         &taken);
  return taken;
}

static void
press (GtkWidget *widget, const char *action)
{
  g_assert_true (gtk_widget_activate_action (widget, action, NULL));
  desk_settle ();
}

static void
empty_all (Desk *desk)
{
  g_assert_true (lid_edits_empty_all (lid_job_model_get_edits (desk->model), LID_PLANNED, NULL));
  lid_job_model_edited (desk->model);
  desk_settle ();
}

/* Tray, slot: filled. The same place again: the next in the order of fitting. */
static void
test_click_and_run_on (Desk *desk, gconstpointer data)
{
  GtkWidget *a1 = slot_of (desk, "A1");
  const LidBoard *board = lid_job_model_get_job (desk->model)->board;
  g_autoptr (LidModule) module = NULL;
  GtkWidget *item;

  empty_all (desk);
  lid_module_tray_enter (desk->tray, "4x " LABEL);
  module = lid_module_ref (lid_hands_get_module (desk->hands));
  lid_hands_pick_up (desk->hands, NULL);
  item = lid_module_tray_find (desk->tray, module);
  g_assert_nonnull (item);
  click (item);
  g_assert_nonnull (lid_hands_get_module (desk->hands));
  gtk_test_accessible_assert_state (GTK_ACCESSIBLE (item), GTK_ACCESSIBLE_STATE_PRESSED,
                                    GTK_ACCESSIBLE_TRISTATE_TRUE);
  click (a1);
  g_assert_nonnull (sits_in (desk, "A1"));
  gtk_test_accessible_assert_state (GTK_ACCESSIBLE (a1), GTK_ACCESSIBLE_STATE_CHECKED,
                                    GTK_ACCESSIBLE_TRISTATE_TRUE);
  click (a1);
  g_assert_cmpuint (lid_population_n_modules (lid_job_model_get_population (desk->model)), ==, 2);
  g_assert_nonnull (lid_job_model_get_population (desk->model)->slots[board->order[1]].module);
  lid_job_model_undo (desk->model);
  lid_job_model_undo (desk->model);
  g_assert_null (sits_in (desk, "A1"));
  gtk_test_accessible_assert_state (GTK_ACCESSIBLE (a1), GTK_ACCESSIBLE_STATE_CHECKED,
                                    GTK_ACCESSIBLE_TRISTATE_FALSE);
  lid_job_model_redo (desk->model);
  g_assert_nonnull (sits_in (desk, "A1"));
}

static void
test_empty_and_undo (Desk *desk, gconstpointer data)
{
  const LidModule *was = sits_in (desk, "B1");

  g_assert_nonnull (was);
  press (slot_of (desk, "B1"), "slot.empty");
  g_assert_null (sits_in (desk, "B1"));
  g_assert_nonnull (strstr (lid_edits_undo_name (lid_job_model_get_edits (desk->model)), "B1"));
  lid_job_model_undo (desk->model);
  g_assert_cmpstr (sits_in (desk, "B1")->id, ==, was->id);
}

static void
test_drag (Desk *desk, gconstpointer data)
{
  g_autofree char *id = g_strdup (sits_in (desk, "A1")->id);
  GtkWidget *item;

  g_assert_true (drop (slot_of (desk, "A2"), slot_of (desk, "A1")));
  g_assert_null (sits_in (desk, "A1"));
  g_assert_cmpstr (sits_in (desk, "A2")->id, ==, id);
  g_assert_false (drop (slot_of (desk, "A2"), slot_of (desk, "A2")));
  g_assert_true (drop (GTK_WIDGET (desk->tray), slot_of (desk, "A2")));
  g_assert_null (sits_in (desk, "A2"));
  item = lid_module_tray_find (desk->tray,
                               lid_job_find_module (lid_job_model_get_job (desk->model), id));
  g_assert_nonnull (item);
  g_assert_true (drop (slot_of (desk, "A1"), item));
  g_assert_nonnull (sits_in (desk, "A1"));
}

static void
test_fill_many (Desk *desk, gconstpointer data)
{
  empty_all (desk);
  lid_module_tray_enter (desk->tray, "8x " LABEL);
  g_assert_nonnull (lid_hands_get_module (desk->hands));
  g_assert_true (lid_hands_fill_first_slots (desk->hands));
  g_assert_cmpuint (lid_population_n_modules (lid_job_model_get_population (desk->model)), ==, 4);
  press (slot_of (desk, "A1"), "slot.fill-channel");
  g_assert_nonnull (sits_in (desk, "A2"));
  g_assert_null (sits_in (desk, "B2"));
  press (slot_of (desk, "A1"), "slot.fill-alike");
  g_assert_cmpuint (lid_population_n_modules (lid_job_model_get_population (desk->model)), ==, 8);
  g_assert_false (lid_hands_fill_alike (desk->hands, slot_index (desk, "A1"))); /* all are full */
  g_assert_cmpstr (lid_module_tray_get_sentence (desk->tray), !=, "");
  lid_job_model_undo (desk->model);
  g_assert_cmpuint (lid_population_n_modules (lid_job_model_get_population (desk->model)), ==, 5);
}

/* Keys alone, and no mouse: labels, names of slots, Enter. */
static void
test_number_pad (Desk *desk, gconstpointer data)
{
  empty_all (desk);
  gtk_widget_activate_action (GTK_WIDGET (desk->tray), "tray.label", NULL);
  lid_module_tray_enter (desk->tray, "c1"); /* empty hands: there, and nothing else */
  g_assert_true (gtk_root_get_focus (GTK_ROOT (desk->window))
                 == lid_board_area_get_slot (
                     desk->board, (guint)lid_slot_words_find (
                                      lid_job_model_get_job (desk->model)->board, "C1")));
  g_assert_null (sits_in (desk, "C1"));
  lid_module_tray_enter (desk->tray, "2x " LABEL);
  g_assert_cmpstr (lid_module_tray_get_sentence (desk->tray), ==, "");
  lid_module_tray_enter (desk->tray, "c1");
  g_assert_nonnull (sits_in (desk, "C1"));
  lid_module_tray_enter (desk->tray, "");
  g_assert_cmpuint (lid_population_n_modules (lid_job_model_get_population (desk->model)), ==, 2);
}

/* A wrong label is refused with the reader's sentence; nothing changes. */
static void
test_wrong_label (Desk *desk, gconstpointer data)
{
  LidEdits *edits = lid_job_model_get_edits (desk->model);
  guint n = lid_edits_job (edits)->modules->len;

  lid_module_tray_enter (desk->tray, "32GB 2Rx4 PC4-9999Z-RB1-11");
  g_assert_cmpstr (lid_module_tray_get_sentence (desk->tray), !=, "");
  g_assert_cmpuint (lid_edits_job (edits)->modules->len, ==, n);
  g_assert_false (lid_edits_can_undo (edits));
}

static void
test_qr_label (Desk *desk, gconstpointer data)
{
  guint n = lid_job_model_get_job (desk->model)->modules->len;

  lid_module_tray_enter (desk->tray, "(L)" LABEL "(S)0012AB(P)T-32-2400");
  g_assert_cmpstr (lid_module_tray_get_sentence (desk->tray), ==, "");
  g_assert_cmpuint (lid_job_model_get_job (desk->model)->modules->len, ==, n + 1);
}

static void
move (Desk *desk, GtkDirectionType direction)
{
  g_signal_emit_by_name (desk->window, "move-focus", direction);
}

static void
test_arrows (Desk *desk, gconstpointer data)
{
  GtkWidget *a1 = slot_of (desk, "A1"), *first, *focus;

  gtk_widget_grab_focus (a1);
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (desk->window)) == a1);
  move (desk, GTK_DIR_DOWN);
  first = gtk_window_get_focus (GTK_WINDOW (desk->window));
  if (first == a1)
    move (desk, GTK_DIR_UP);
  first = gtk_window_get_focus (GTK_WINDOW (desk->window));
  g_assert_true (LID_IS_SLOT_BUTTON (first) && first != a1);
  move (desk, GTK_DIR_TAB_FORWARD); /* out: to a note, or on */
  focus = gtk_window_get_focus (GTK_WINDOW (desk->window));
  g_assert_false (LID_IS_SLOT_BUTTON (focus));
  while (LID_IS_NOTE_BUTTON (gtk_window_get_focus (GTK_WINDOW (desk->window))))
    move (desk, GTK_DIR_TAB_BACKWARD);
  if (!LID_IS_SLOT_BUTTON (gtk_window_get_focus (GTK_WINDOW (desk->window))))
    gtk_widget_grab_focus (GTK_WIDGET (desk->board));
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (desk->window)) == first);
}

/* Every slot is reached by arrows alone from the first one. */
static void
test_reach (Desk *desk, gconstpointer data)
{
  guint n = lid_job_model_get_job (desk->model)->board->n_slots, n_seen = 1;
  g_autofree guint8 *seen = g_new0 (guint8, n);
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (guint));
  guint start = 0;

  seen[0] = 1;
  g_array_append_val (open, start);
  for (guint i = 0; i < open->len; i++)
    for (int direction = GTK_DIR_UP; direction <= (int)GTK_DIR_RIGHT; direction++)
      {
        GtkWidget *now;
        guint at;

        gtk_widget_grab_focus (
            lid_board_area_get_slot (desk->board, g_array_index (open, guint, i)));
        move (desk, (GtkDirectionType)direction);
        now = gtk_window_get_focus (GTK_WINDOW (desk->window));
        g_assert_true (LID_IS_SLOT_BUTTON (now));
        at = lid_slot_button_get_slot (LID_SLOT_BUTTON (now));
        if (seen[at]++ == 0)
          {
            g_array_append_val (open, at);
            n_seen++;
          }
      }
  g_assert_cmpuint (n_seen, ==, n);
}

static void
test_names (Desk *desk, gconstpointer data)
{
  const LidBoard *board = lid_job_model_get_job (desk->model)->board;

  gtk_test_accessible_assert_role (GTK_ACCESSIBLE (slot_of (desk, "A1")),
                                   GTK_ACCESSIBLE_ROLE_CHECKBOX);
  for (guint i = 0; i < board->n_slots; i++)
    {
      g_autofree char *name = g_strdup_printf (
          "slot %s, channel %s, place %u", board->slots[i].name,
          board->channels[board->slots[i].channel].name, board->slots[i].position);

      gtk_test_accessible_assert_property (
          GTK_ACCESSIBLE (lid_board_area_get_slot (desk->board, i)), GTK_ACCESSIBLE_PROPERTY_LABEL,
          name);
    }
}

/* A module behind an empty first slot is not seen: said on the slot, and mended by its note. */
static void
test_finding_and_remedy (Desk *desk, gconstpointer data)
{
  GtkWidget *note = NULL;

  g_assert_true (drop (slot_of (desk, "A2"), slot_of (desk, "A1")));
  desk_settle ();
  gtk_test_accessible_assert_state (GTK_ACCESSIBLE (slot_of (desk, "A2")),
                                    GTK_ACCESSIBLE_STATE_INVALID, GTK_ACCESSIBLE_INVALID_TRUE);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (desk->board));
       child != NULL && note == NULL; child = gtk_widget_get_next_sibling (child))
    if (LID_IS_NOTE_BUTTON (child)
        && lid_note_button_get_finding (LID_NOTE_BUTTON (child))->grade == LID_GRADE_STOPS
        && lid_finding_remedy (lid_note_button_get_finding (LID_NOTE_BUTTON (child))) != NULL)
      note = child;
  g_assert_nonnull (note);
  press (note, "note.apply");
  g_assert_nonnull (sits_in (desk, "A1"));
  g_assert_null (sits_in (desk, "A2"));
}

static void
test_zoom (Desk *desk, gconstpointer data)
{
  double fitted = lid_board_area_get_geometry (desk->board)->zoom;

  press (GTK_WIDGET (desk->board), "board.zoom-in");
  g_assert_cmpfloat (lid_board_area_get_geometry (desk->board)->zoom, >, fitted * 1.1);
  press (GTK_WIDGET (desk->board), "board.zoom-fit");
  g_assert_cmpfloat_with_epsilon (lid_board_area_get_geometry (desk->board)->zoom, fitted, 1e-6);
  g_signal_emit_by_name (controller_of (GTK_WIDGET (desk->board), GTK_TYPE_GESTURE_ZOOM),
                         "scale-changed", 2.0);
  g_assert_cmpfloat (lid_board_area_get_zoom (desk->board), >, 0);
  desk_settle ();
}

/* The view changes and nothing else does. */
static void
test_lid_off (Desk *desk, gconstpointer data)
{
  if (!lid_job_model_get_job (desk->model)->board->placed)
    {
      g_test_skip ("the example's board has no places");
      return;
    }
  press (GTK_WIDGET (desk->board), "board.lid-off");
  g_assert_true (lid_board_area_get_geometry (desk->board)->lid_off);
  gtk_test_widget_wait_for_draw (desk->window);
  press (GTK_WIDGET (desk->board), "board.lid-off");
  g_assert_false (lid_board_area_get_geometry (desk->board)->lid_off);
  g_assert_false (lid_edits_can_undo (lid_job_model_get_edits (desk->model)));
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (Desk *, gconstpointer);
  } tests[] = {
    { "/hands/click-and-run-on", test_click_and_run_on },
    { "/hands/empty-and-undo", test_empty_and_undo },
    { "/hands/drag", test_drag },
    { "/hands/fill-many", test_fill_many },
    { "/hands/number-pad", test_number_pad },
    { "/hands/wrong-label", test_wrong_label },
    { "/hands/qr-label", test_qr_label },
    { "/hands/arrows", test_arrows },
    { "/hands/reach", test_reach },
    { "/hands/names", test_names },
    { "/hands/finding-and-remedy", test_finding_and_remedy },
    { "/hands/zoom", test_zoom },
    { "/hands/lid-off", test_lid_off },
  };

  gtk_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Desk, NULL, set_up, tests[i].test, tear_down);
  return g_test_run ();
}
