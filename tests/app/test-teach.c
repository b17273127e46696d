/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/application.h"
#include "app/bench-view.h"
#include "app/slot-words.h"
#include "app/teach-clicks.h"
#include "app/window-private.h"
#include "support.h"

#include "board/board-list.h"
#include "job/job-file.h"

#include <glib/gstdio.h>
#include <string.h>

static GtkApplication *application;

/* An invented machine whose slot names are numbers alone; the odd ones are filled, the first @of_a
 * slots with part TP-16, the others with TQ-16. */
static char *
untold_report (guint n, guint of_a)
{
  GString *text = g_string_new ("# dmidecode 3.4\n\nHandle 0x0001, DMI type 1, 27 bytes\n"
                                "System Information\n\tManufacturer: Tide Office\n"
                                "\tProduct Name: Spring gauge\n\n"
                                "Handle 0x0004, DMI type 4, 48 bytes\nProcessor Information\n"
                                "\tSocket Designation: CPU 1\n"
                                "\tStatus: Populated, Enabled\n\n"
                                "Handle 0x1000, DMI type 16, 23 bytes\nPhysical Memory Array\n"
                                "\tUse: System Memory\n\n");

  for (guint i = 1; i <= n; i++)
    {
      g_string_append_printf (text,
                              "Handle 0x11%02X, DMI type 17, 40 bytes\nMemory Device\n"
                              "\tArray Handle: 0x1000\n\tLocator: DIMM %u\n"
                              "\tBank Locator: Not Specified\n",
                              i, i);
      if (i % 2 == 0)
        g_string_append (text, "\tSize: No Module Installed\n\tType: Unknown\n\n");
      else
        g_string_append_printf (text,
                                "\tSize: 16 GB\n\tType: DDR4\n\tSpeed: 2400 MT/s\n"
                                "\tPart Number: T%c-16\n\n",
                                i <= of_a ? 'P' : 'Q');
    }
  return g_string_free (text, FALSE);
}

static LidWindow *
paste_parts (guint n, guint of_a)
{
  g_autofree char *text = untold_report (n, of_a);
  LidWindow *window = lid_window_new (application);

  gtk_window_present (GTK_WINDOW (window));
  g_assert_true (lid_window_paste_text (window, text));
  return window;
}

static LidWindow *
paste (guint n)
{
  return paste_parts (n, n);
}

static LidBenchView *
bench_of (LidWindow *window)
{
  return LID_BENCH_VIEW (gtk_widget_get_first_child (window->board_place));
}

static LidTeachView *
teaching (LidWindow *window)
{
  return lid_bench_view_get_teach_view (bench_of (window));
}

static const LidBoard *
board_of (LidWindow *window)
{
  return lid_job_model_get_job (lid_window_get_model (window))->board;
}

/* What a screen reader is told of the slot widgets is what the board is. */
static void
check_widgets (LidWindow *window)
{
  LidBoardArea *area = lid_bench_view_get_board (bench_of (window));
  const LidBoard *board = board_of (window);
  const LidPopulation *population = lid_job_model_get_population (lid_window_get_model (window));

  for (guint i = 0; i < board->n_slots; i++)
    {
      GtkWidget *slot = lid_board_area_get_slot (area, i);
      g_autofree char *name = lid_slot_words_name (board, i);

      gtk_test_accessible_assert_property (GTK_ACCESSIBLE (slot), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                           name);
      gtk_test_accessible_assert_state (GTK_ACCESSIBLE (slot), GTK_ACCESSIBLE_STATE_CHECKED,
                                        population->slots[i].module != NULL
                                            ? GTK_ACCESSIBLE_TRISTATE_TRUE
                                            : GTK_ACCESSIBLE_TRISTATE_FALSE);
      g_assert_cmpuint (lid_slot_button_get_slot (LID_SLOT_BUTTON (slot)), ==, i);
    }
  g_assert_null (lid_board_area_get_slot (area, board->n_slots));
  g_assert_true (lid_board_area_get_geometry (area)->board == board);
}

static guint
n_kept (void)
{
  g_autofree char *folder = lid_board_list_user_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  for (const char *name; dir != NULL && (name = g_dir_read_name (dir)) != NULL;)
    n += g_str_has_suffix (name, ".json");
  return n;
}

static void
taught_and_undone (void)
{
  LidWindow *window = paste (8);
  LidJobModel *model = lid_window_get_model (window);
  LidEdits *edits = lid_job_model_get_edits (model);
  g_autoptr (GError) error = NULL;

  g_assert_false (board_of (window)->channels_told);
  check_widgets (window);
  g_assert_true (lid_edits_take (edits, LID_PLANNED, 0, &error));
  lid_job_model_edited (model);
  lid_teach_view_choose (teaching (window), 1);
  gtk_widget_activate_action (GTK_WIDGET (teaching (window)), "teach.use", NULL);
  g_assert_true (lid_job_model_get_edits (lid_window_get_model (window)) == edits);
  g_assert_true (board_of (window)->channels_told);
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "teach the channels");
  g_assert_nonnull (strstr (lid_window_get_sentence (window), "kept as yours"));
  check_widgets (window);
  g_assert_cmpuint (n_kept (), ==, 1);

  lid_job_model_undo (model);
  g_assert_false (board_of (window)->channels_told);
  g_assert_cmpuint (n_kept (), ==, 0);
  check_widgets (window);
  lid_job_model_undo (model);
  lid_job_model_redo (model);
  check_widgets (window);
  lid_job_model_redo (model);
  g_assert_true (board_of (window)->channels_told);
  g_assert_cmpuint (n_kept (), ==, 1);
  check_widgets (window);
  lid_job_model_undo (model);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* An edit made or undone while the pattern is looked at is in what is taught. */
static void
taught_of_what_stands (void)
{
  LidWindow *window = paste (8);
  LidJobModel *model = lid_window_get_model (window);
  g_autoptr (GError) error = NULL;

  lid_teach_view_choose (teaching (window), 0);
  g_assert_true (lid_edits_set_text (lid_job_model_get_edits (model), LID_EDITS_OWNER,
                                     "Harbour library", &error));
  lid_job_model_edited (model);
  gtk_widget_activate_action (GTK_WIDGET (teaching (window)), "teach.use", NULL);
  g_assert_cmpstr (lid_job_model_get_job (model)->owner, ==, "Harbour library");
  lid_job_model_undo (model);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
pick (LidWindow *window, const char *name, const char *action)
{
  LidTeachBoard *slots = lid_teach_view_get_slots (teaching (window));
  int slot = lid_board_find_slot (board_of (window), name);

  g_assert_cmpint (slot, !=, LID_NOWHERE);
  g_assert_true (
      gtk_widget_activate_action (lid_teach_board_get_slot (slots, (guint)slot), action, NULL));
}

static void
check_slot (LidWindow *window, const char *name, const char *channel, guint position)
{
  const LidBoard *board = board_of (window);
  const LidBoardSlot *slot = &board->slots[lid_board_find_slot (board, name)];

  g_assert_cmpstr (board->channels[slot->channel].name, ==, channel);
  g_assert_cmpuint (slot->position, ==, position);
}

/* Two slots are clicked and closed as a channel; the others close by themselves at two. */
static void
clicked_together (void)
{
  LidWindow *window = paste (8);
  LidJobModel *model = lid_window_get_model (window);
  LidTeachView *view = teaching (window);
  LidTeachBoard *slots = lid_teach_view_get_slots (view);
  static const char *const rest[] = { "DIMM 2", "DIMM 6", "DIMM 3", "DIMM 7", "DIMM 4" };
  GtkWidget *clicks;

  g_action_group_activate_action (G_ACTION_GROUP (window), "teach", NULL);
  lid_teach_view_choose (view, lid_teach_view_n_patterns (view));
  g_assert_null (lid_teach_view_get_preview (view));
  pick (window, "DIMM 5", "teach-slot.pick");
  pick (window, "DIMM 8", "teach-slot.pick");
  pick (window, "DIMM 8", "teach-slot.pick"); /* a slip, taken back */
  pick (window, "DIMM 1", "teach-slot.pick");
  clicks = gtk_widget_get_ancestor (GTK_WIDGET (slots), LID_TYPE_TEACH_CLICKS);
  g_assert_true (gtk_widget_activate_action (clicks, "clicks.next-channel", NULL));
  for (guint i = 0; i < G_N_ELEMENTS (rest); i++)
    pick (window, rest[i], "teach-slot.pick");
  g_assert_cmpuint (lid_teach_view_get_preview (view)->board->n_channels, ==, 4);
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (lid_teach_board_get_slot (slots, 0)),
                                       GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, "channel A");

  /* One slot is left: nothing is taught yet. */
  gtk_widget_activate_action (GTK_WIDGET (view), "teach.use", NULL);
  g_assert_false (board_of (window)->channels_told);
  pick (window, "DIMM 8", "teach-slot.pick");
  gtk_widget_activate_action (GTK_WIDGET (view), "teach.use", NULL);
  g_assert_true (board_of (window)->channels_told);
  check_slot (window, "DIMM 5", "A", 1);
  check_slot (window, "DIMM 1", "A", 2);
  check_slot (window, "DIMM 6", "B", 2);
  check_slot (window, "DIMM 4", "D", 1);
  check_widgets (window);
  lid_job_model_undo (model);
  check_widgets (window);

  /* Taught, it may be taught again. */
  lid_job_model_redo (model);
  lid_teach_view_choose (view, 0);
  gtk_widget_activate_action (GTK_WIDGET (view), "teach.use", NULL);
  check_slot (window, "DIMM 1", "1", 1);
  g_assert_cmpuint (n_kept (), ==, 1);
  lid_job_model_undo (model);
  check_slot (window, "DIMM 5", "A", 1);
  g_assert_cmpuint (n_kept (), ==, 1);
  lid_job_model_undo (model);
  g_assert_cmpuint (n_kept (), ==, 0);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Asked once for the part, in all its slots; one label answers, and undo asks again. */
static void
asked (void)
{
  LidWindow *window = paste_parts (8, 4);
  LidJobModel *model = lid_window_get_model (window);
  LidLabelAsker *asker = lid_bench_view_get_asker (bench_of (window));
  g_autofree char *before = lid_label_asker_get_words (asker), *after = NULL, *again = NULL;
  GtkWidget *entry = lid_label_asker_get_entry (asker, 0);
  g_autofree char *path = lid_parts_default_path ();
  guint n = 0;

  g_assert_cmpstr (before, ==, "Facts of 2 parts are not told.");
  g_assert_nonnull (entry);
  g_assert_null (lid_label_asker_get_entry (asker, 2));
  /* The label of another module is refused, and nothing changes. */
  gtk_editable_set_text (GTK_EDITABLE (entry), "32GB 2Rx4 PC4-2400T-RB1-11");
  g_signal_emit_by_name (entry, "activate");
  g_assert_true (lid_label_asker_get_entry (asker, 0) == entry);
  g_assert_null (lid_edits_undo_name (lid_job_model_get_edits (model)));
  gtk_editable_set_text (GTK_EDITABLE (entry), " 16GB 2Rx8 PC4-2400T-RE1-11 ");
  g_signal_emit_by_name (entry, "activate");
  after = lid_label_asker_get_words (asker);
  g_assert_nonnull (after);
  g_assert_true (g_str_has_prefix (after, "Not told of TQ-16: "));
  g_assert_cmpstr (lid_edits_undo_name (lid_job_model_get_edits (model)), ==, "facts of TP-16");
  for (guint i = 0; i < 4; i++)
    n += lid_module_kind (lid_job_model_get_job (model)->modules->pdata[i]) == LID_KIND_REGISTERED;
  g_assert_cmpuint (n, ==, 2);
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
  lid_job_model_undo (model);
  again = lid_label_asker_get_words (asker);
  g_assert_cmpstr (again, ==, before);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* The bar says which board, and what of the report is odd or was left out. */
static void
said (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_TEST_DATA"), "report", "odd-values.txt", NULL);
  g_autofree char *text = NULL;
  LidWindow *window = lid_window_new (application);
  const char *sentence;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  gtk_window_present (GTK_WINDOW (window));
  g_assert_true (lid_window_paste_text (window, text));
  sentence = lid_window_get_sentence (window);
  g_assert_nonnull (strstr (sentence, "No board definition fits"));
  g_assert_nonnull (strstr (sentence, "handle 0x0027: "));
  g_assert_nonnull (strstr (sentence, "Read the size off the label"));
  g_assert_nonnull (strstr (sentence, "And 6 more remarks"));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Taught once, the next machine of the kind says so. */
static void
known_again (void)
{
  LidWindow *window = paste (8), *next;
  LidJobModel *model = lid_window_get_model (window);

  lid_teach_view_choose (teaching (window), 0);
  gtk_widget_activate_action (GTK_WIDGET (teaching (window)), "teach.use", NULL);
  next = paste (8);
  g_assert_nonnull (strstr (lid_window_get_sentence (next), "as you taught them"));
  g_assert_true (board_of (next)->channels_told);
  gtk_window_destroy (GTK_WINDOW (next));
  lid_job_model_undo (model);
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  g_autofree char *folder = g_dir_make_tmp ("lidleaf-teach-XXXXXX", NULL);
  g_autoptr (GError) error = NULL;
  int status;

  gtk_test_init (&argc, &argv, NULL);
  lid_board_list_set_folders (NULL, folder);
  application = lid_application_new ();
  g_application_set_flags (G_APPLICATION (application), G_APPLICATION_NON_UNIQUE);
  g_assert_true (g_application_register (G_APPLICATION (application), NULL, &error));
  g_test_add_func ("/teach/undone", taught_and_undone);
  g_test_add_func ("/teach/of-what-stands", taught_of_what_stands);
  g_test_add_func ("/teach/clicked-together", clicked_together);
  g_test_add_func ("/teach/asked", asked);
  g_test_add_func ("/teach/said", said);
  g_test_add_func ("/teach/known-again", known_again);
  status = g_test_run ();
  g_rmdir (folder);
  return status;
}
